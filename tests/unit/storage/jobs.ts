import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { msg } from '../../../src/base/message.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Command } from '../../../src/plan/commands/command.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { commit, type History, redo, startHistory, undo } from '../../../src/plan/history.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';

/** What somebody may do to a job in a test. */
export type Deed = {
  readonly do: 'place' | 'remove' | 'rename' | 'undo' | 'redo';
  readonly n: number;
};

export const deeds = fc.array(
  fc.record({
    do: fc.constantFrom('place', 'place', 'place', 'remove', 'rename', 'undo', 'undo', 'redo'),
    n: fc.nat(1000),
  }),
) as fc.Arbitrary<Deed[]>;

function run<A>(history: History, command: Command<A>, args: A, merge?: string): History {
  const outcome = command(history.plan, args, { kinds });
  if (!outcome.ok) return history;
  const { label, changes } = outcome;
  return commit(history, { label, changes, ...(merge === undefined ? {} : { merge }) });
}

/** The job after one more deed. */
export function act(history: History, deed: Deed): History {
  switch (deed.do) {
    case 'undo':
      return undo(history);
    case 'redo':
      return redo(history);
    case 'rename':
      return rename(history, `Job ${deed.n}`);
    case 'remove': {
      const ids = [...history.plan.tables.devices.keys()];
      const id = ids[deed.n % Math.max(1, ids.length)];
      if (id === undefined) return history;
      return run(history, commands.delete, { refs: [{ table: 'devices', id }] });
    }
    default:
      return place(history, deed.n);
  }
}

export const place = (history: History, n: number): History =>
  run(history, commands['place-device'], {
    level: 'L1',
    kind: [...kinds.keys()][n % kinds.size]!,
    at: [n * 37, n * 11],
  });

/** A step that joins the one before it when that was a renaming too. */
export function rename(history: History, name: string, merge = 'job.name'): History {
  const before = history.plan.tables.job.get('job')!;
  const after = { ...before, name };
  const changes = [{ table: 'job' as const, id: 'job', before, after }];
  return commit(history, { label: msg('Rename job'), changes, merge });
}

export const blank = (): History => startHistory(emptyPlan());

/**
 * Everything that must come back, as text: rows in their order, steps, cursor. Text is compared at once and shown
 * short, where the difference of two long histories would take minutes.
 */
export function shape(history: History): string {
  const { tables } = history.plan;
  const rows = Object.fromEntries(Object.entries(tables).map(([name, t]) => [name, [...t]]));
  const text = JSON.stringify({ rows, steps: history.steps, cursor: history.cursor });
  return createHash('sha256').update(text).digest('hex') + text.slice(-200);
}
