import { renderMessage } from '../../../src/base/message.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply } from '../../../src/plan/change.ts';
import type { Command, Outcome } from '../../../src/plan/commands/command.ts';
import { type CommandArgs, type CommandName, commands } from '../../../src/plan/commands/index.ts';
import type { Device, Outlet, Plan } from '../../../src/plan/plan.ts';
import { jacksOf } from '../../../src/plan/plan.ts';

/** What a command answers. */
export const ask = <N extends CommandName>(plan: Plan, name: N, args: CommandArgs<N>): Outcome =>
  (commands[name] as unknown as Command<CommandArgs<N>>)(plan, args, { kinds });

/** The plan after a command that can be done. */
export function step<N extends CommandName>(plan: Plan, name: N, args: CommandArgs<N>): Plan {
  const outcome = ask(plan, name, args);
  if (!outcome.ok) throw new Error(renderMessage(outcome.why, 'ft'));
  return apply(plan, outcome.changes);
}

/** Why a command cannot be done, in words. */
export function refusal<N extends CommandName>(plan: Plan, name: N, args: CommandArgs<N>): string {
  const outcome = ask(plan, name, args);
  if (outcome.ok) throw new Error(`${name} went through`);
  return renderMessage(outcome.why, 'ft');
}

export const device = (plan: Plan, id: string): Device => plan.tables.devices.get(id)!;
export const labels = (plan: Plan): string[] =>
  [...plan.tables.jacks.values()].map((jack) => jack.label);

/** The outlet of a device's first jack. */
export const outletOf = (plan: Plan, id: string): Outlet =>
  plan.tables.outlets.get(jacksOf(plan, device(plan, id))[0]!.outlet)!;
