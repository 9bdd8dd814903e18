import { createSession, type SessionApi } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply } from '../../../src/plan/change.ts';
import { type CommandArgs, type CommandName, commands } from '../../../src/plan/commands/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import type { Finding, Run, RunPart, Survey } from '../../../src/results/types.ts';

/** A plan after commands, one after the other; a command that cannot be carried out fails the test. */
export class Site {
  plan: Plan = emptyPlan();

  run<N extends CommandName>(name: N, args: CommandArgs<N>): this {
    const outcome = (
      commands[name] as never as (
        p: Plan,
        a: unknown,
        c: object,
      ) => ReturnType<(typeof commands)['edit']>
    )(this.plan, args, { kinds });
    if (!outcome.ok) throw new Error(outcome.why.text);
    this.plan = apply(this.plan, outcome.changes);
    return this;
  }

  session(): SessionApi {
    return createSession(kinds, this.plan);
  }
}

/** A room of 12 × 9 m in area A with its walls, a closet and two order stations: jacks A1 and A2. */
export const smallSite = (): Site =>
  new Site()
    .run('draw-zone', {
      level: 'L1',
      outline: [
        [0, 0],
        [12_000, 0],
        [12_000, 9000],
        [0, 9000],
      ],
      look: { name: 'Kitchen' },
      walls: true,
    })
    .run('place-closet', { level: 'L1', at: [1000, 8000] })
    .run('place-device', { level: 'L1', kind: 'order-station', at: [10_000, 400] })
    .run('place-device', { level: 'L1', kind: 'order-station', at: [6000, 400] });

const part = (kind: RunPart['kind'], length: number, more: Partial<RunPart> = {}): RunPart => ({
  kind,
  length,
  zone: null,
  pathway: null,
  ...more,
});

export { part };

/** A run of these parts, to a limit of 90 m. */
export function runOf(
  jack: string,
  label: string,
  parts: readonly RunPart[],
  more: Partial<Run> = {},
): Run {
  const sum = (...kinds: RunPart['kind'][]) =>
    parts.filter((p) => kinds.includes(p.kind)).reduce((total, p) => total + p.length, 0);
  const across = sum('across');
  const vertical = sum('up', 'step', 'down', 'riser');
  const slack = sum('outlet-slack', 'field-loop', 'closet-loop');
  const cable = across + vertical + slack;
  return {
    jack,
    label,
    outlet: 'O1',
    device: 'D1',
    closet: 'C1',
    level: 'L1',
    status: 'ok',
    across,
    vertical,
    slack,
    path: across + vertical,
    cable,
    order: Math.ceil(cable * 1.1),
    channel: cable + 2134 + 914,
    limit: 90_000,
    cost: across,
    parts,
    segments: [],
    points: [],
    crossings: [],
    pathways: [],
    bends: 0,
    pinned: null,
    blocked: null,
    ...more,
  };
}

export const finding = (more: Partial<Finding>): Finding => ({
  rule: 'a-rule',
  severity: 'error',
  subjects: [],
  at: null,
  message: { text: 'What', params: {} },
  remedy: { text: 'How', params: {} },
  source: 'common practice, no source',
  fix: null,
  ...more,
});

export const surveyOf = (runs: readonly Run[], findings: readonly Finding[] = []): Survey => ({
  runs,
  ways: [],
  findings,
  price: {
    currency: '$',
    lines: [],
    materialCents: 0,
    labourCents: 0,
    markupCents: 0,
    taxCents: 0,
    totalCents: 984_049,
    hours: 0,
  },
  boxPlan: { boxes: [], bound: 0, oversize: [], byLength: 0, byAverage: 0 },
  averaging: null,
  totals: {
    cable: runs.reduce((sum, run) => sum + run.cable, 0),
    order: 0,
    jacks: 2,
    devices: 2,
    boxes: 1,
    priceCents: 984_049,
  },
});
