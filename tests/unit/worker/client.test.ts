import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, type Changes } from '../../../src/plan/change.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import type { CeilingPlane } from '../../../src/results/ceiling-plane.ts';
import type { ClosetStudy, Survey } from '../../../src/results/types.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { createAnswerer } from '../../../src/worker/answering.ts';
import { createSurveyClient } from '../../../src/worker/client.ts';
import { type Answer, type Ask, NO_LISTS } from '../../../src/worker/protocol.ts';

function place(plan: Plan, n: number): Plan {
  const outcome = commands['place-device'](
    plan,
    { level: 'L1', kind: [...kinds.keys()][0]!, at: [n * 500, 0] },
    { kinds },
  );
  return apply(plan, outcome.ok ? outcome.changes : []);
}

function rename(plan: Plan, name: string): Plan {
  const before = plan.tables.job.get('job')!;
  const changes: Changes = [{ table: 'job', id: 'job', before, after: { ...before, name } }];
  return apply(plan, changes);
}

function remove(plan: Plan, n: number): Plan {
  const ids = [...plan.tables.devices.keys()];
  const id = ids[n % Math.max(1, ids.length)];
  if (id === undefined) return plan;
  const outcome = commands.delete(plan, { refs: [{ table: 'devices', id }] }, { kinds });
  return apply(plan, outcome.ok ? outcome.changes : []);
}

function withCloset(plan: Plan): Plan {
  const outcome = commands['place-closet'](plan, { level: 'L1', at: [9000, 0] }, { kinds });
  return apply(plan, outcome.ok ? outcome.changes : []);
}

function move(plan: Plan, n: number, y: number): Plan {
  const id = [...plan.tables.devices.keys()][n];
  if (id === undefined) return plan;
  const refs = [{ table: 'devices', id }] as const;
  const outcome = commands.move(plan, { refs, by: [0, y] }, { kinds });
  return apply(plan, outcome.ok ? outcome.changes : []);
}

function relabel(plan: Plan, n: number, label: string): Plan {
  const before = [...plan.tables.jacks.values()][n];
  if (before === undefined) return plan;
  return apply(plan, [{ table: 'jacks', id: before.id, before, after: { ...before, label } }]);
}

const rowCount = (plan: Plan): number =>
  Object.values(plan.tables).reduce((sum, table) => sum + table.size, 0);

/** A plan as text, with its rows in their order. */
const inText = (plan: Plan): string =>
  JSON.stringify(Object.entries(plan.tables).map(([name, table]) => [name, [...table]]));

/** What the other end was asked to survey: it stands in for a survey. */
const echo = (plan: Plan): Survey => ({ seen: plan, ...NO_LISTS }) as unknown as Survey;
/** The same for a study of closets. */
const study = (plan: Plan): ClosetStudy => ({
  places: plan.tables.devices.size,
  best: null,
  passed: null,
});
const NO_PLANE: Omit<CeilingPlane, 'level'> = {
  ceilings: [],
  walls: [],
  keepouts: [],
  pathways: [],
  faces: [],
  bend: 0,
};
/** The same for what lies overhead: as many planes as the plan has devices. */
const ceilings = (plan: Plan): CeilingPlane[] =>
  [...plan.tables.devices.keys()].map((level) => ({ ...NO_PLANE, level }));
const seen = (survey: Survey | null): unknown =>
  survey && (survey as unknown as { seen: Plan }).seen;

/** The client with its other end in hand: questions wait until the test answers them. */
function bench(survey: (plan: Plan) => Survey = echo) {
  const asks: Ask[] = [];
  let opened = 0;
  let reply!: (answer: Answer) => void;
  let die!: (reason: string) => void;
  let answerer = createAnswerer({ survey, closets: study, ceilings });
  const port = createSurveyClient((answered, died) => {
    opened++;
    reply = answered;
    die = died;
    answerer = createAnswerer({ survey, closets: study, ceilings });
    return { post: (ask) => asks.push(structuredClone(ask)), close: () => undefined };
  });
  return {
    port,
    asks,
    opened: () => opened,
    answer: () => reply(structuredClone(answerer(asks.at(-1)!))),
    die: (reason: string) => die(reason),
  };
}

describe('asking for surveys', () => {
  test('answers what one more closet would do after the surveys that wait, of the plan that was asked about', async () => {
    const { port, asks, answer } = bench();
    const plans = [0, 1, 2].map((n) => place(rename(emptyPlan(), `Job ${n}`), n));
    const first = port.survey(plans[0]!);
    const closets = port.closets(place(plans[1]!, 5));
    const last = port.survey(plans[2]!);
    answer();
    answer();
    answer();
    expect(asks.map((ask) => ask.want)).toEqual(['survey', 'survey', 'closets']);
    expect(await closets).toEqual({ places: 2, best: null, passed: null });
    expect(inText(seen(await first) as Plan)).toBe(inText(plans[0]!));
    expect(inText(seen(await last) as Plan)).toBe(inText(plans[2]!));
  });

  test('answers what lies overhead when no survey waits, and drops what a newer question overtakes', async () => {
    const { port, asks, answer } = bench();
    const plans = [1, 2, 3].map((n) => place(rename(emptyPlan(), `Job ${n}`), n));
    const survey = port.survey(plans[0]!);
    const study = port.closets(plans[0]!);
    const old = port.ceilings(plans[1]!);
    const now = port.ceilings(place(plans[2]!, 4));
    answer();
    answer();
    answer();
    expect(asks.map((ask) => ask.want)).toEqual(['survey', 'ceilings', 'closets']);
    expect(await old).toBeNull();
    expect(await now).toHaveLength(2);
    expect(await study).toEqual({ places: 1, best: null, passed: null });
    expect(inText(seen(await survey) as Plan)).toBe(inText(plans[0]!));
  });

  test('keeps one question under way and one waiting; what the newest overtakes is answered by null', async () => {
    const { port, asks, answer } = bench();
    const plans = [0, 1, 2, 3].map((n) => rename(emptyPlan(), `Job ${n}`));
    const answers = plans.map((plan) => port.survey(plan));
    expect(asks).toHaveLength(1);
    answer();
    expect(asks).toHaveLength(2);
    answer();
    const got = (await Promise.all(answers)).map(seen);
    expect(got).toEqual([plans[0], null, null, plans[3]]);
  });

  test('sends only the rows that changed since the question before', async () => {
    const { port, asks, answer } = bench();
    const first = place(emptyPlan(), 1);
    void port.survey(first);
    answer();
    expect(asks[0]!.rows).toHaveLength(rowCount(first));
    void port.survey(rename(first, 'Another name'));
    expect(asks[1]!.rows.map(({ table, id }) => `${table} ${id}`)).toEqual(['job job']);
  });

  test('lets the other end see every plan whole, whatever changed in between', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(9), { maxLength: 12 }), async (list) => {
        const { port, answer } = bench();
        let plan = emptyPlan();
        let earlier = plan;
        for (const n of list) {
          const next =
            n < 5
              ? place(plan, n)
              : n < 7
                ? remove(plan, n)
                : n < 9
                  ? earlier
                  : rename(plan, `${n}`);
          [plan, earlier] = [next, plan];
          const asked = port.survey(plan);
          answer();
          expect(inText(seen(await asked) as Plan)).toBe(inText(plan));
        }
      }),
      { seed: 20_263, numRuns: 40 },
    );
  });

  test('keeps rows in the order of their ids when one comes back from between others', async () => {
    const { port, answer } = bench();
    const whole = place(place(place(emptyPlan(), 1), 2), 3);
    for (const plan of [whole, remove(whole, 0), whole]) {
      const asked = port.survey(plan);
      answer();
      expect(inText(seen(await asked) as Plan)).toBe(inText(plan));
    }
  });

  test('gives the whole survey, with the very runs, ways and findings of the answer before where they did not change', async () => {
    const { port, asks, answer } = bench(createSurveyor(kinds));
    let plan = withCloset(emptyPlan());
    for (let n = 0; n < 6; n++) plan = place(plan, n);
    plan = move(plan, 5, -6000);
    const first = port.survey(plan);
    answer();
    const before = (await first)!;
    const refs = [{ table: 'devices', id: 'D3' }] as const;
    const moved = commands.move(plan, { refs, by: [0, 3000] }, { kinds });
    plan = apply(plan, moved.ok ? moved.changes : []);
    const second = port.survey(plan);
    answer();
    const after = (await second)!;
    expect(asks).toHaveLength(2);
    expect(after).toEqual(createSurveyor(kinds)(plan));
    const anew = after.runs.filter((run) => !before.runs.includes(run));
    expect(anew.map((run) => run.device)).toEqual(['D3']);
    const kept = (list: 'ways' | 'findings') =>
      after[list].filter((item) => (before[list] as readonly unknown[]).includes(item));
    const alike = (list: 'ways' | 'findings') =>
      after[list].filter((item) => before[list].some((old) => isDeepStrictEqual(old, item)));
    expect(kept('ways').length).toBeGreaterThan(0);
    expect(kept('findings').length).toBeGreaterThan(0);
    expect(kept('findings')).toEqual(alike('findings'));
    expect(after.ways.length).toBeGreaterThan(kept('ways').length);
  });

  test('gives what a new surveyor gives, after every one of a series of edits', async () => {
    const edit = fc.record({ act: fc.nat(3), n: fc.nat(6), by: fc.integer({ min: -9, max: 9 }) });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 10 }), async (edits) => {
        const { port, answer } = bench(createSurveyor(kinds));
        let plan = withCloset(emptyPlan());
        for (let n = 0; n < 5; n++) plan = place(plan, n);
        for (const { act, n, by } of edits) {
          if (act === 0) plan = place(plan, n);
          else if (act === 1) plan = remove(plan, n);
          else if (act === 2) plan = relabel(plan, n, `A${by + 10}`);
          else plan = move(plan, n, by * 700);
          const asked = port.survey(plan);
          answer();
          expect(await asked).toEqual(createSurveyor(kinds)(plan));
        }
      }),
      { seed: 20_264, numRuns: 40 },
    );
  });

  test('rejects a question whose survey fails, and answers the next', async () => {
    const { port, answer } = bench((plan) => {
      if (plan.tables.devices.size > 0) throw new Error('no way out');
      return echo(plan);
    });
    const bad = port.survey(place(emptyPlan(), 1));
    answer();
    await expect(bad).rejects.toThrow('no way out');
    const good = emptyPlan();
    const asked = port.survey(good);
    answer();
    expect(seen(await asked)).toEqual(good);
  });

  test('drops a survey that takes long when a newer plan waits, and begins anew with the newer one', async () => {
    vi.useFakeTimers();
    try {
      const { port, asks, opened, answer } = bench();
      const [first, second, third] = [0, 1, 2].map((n) => rename(emptyPlan(), `Job ${n}`));
      const slow = port.survey(first!);
      vi.advanceTimersByTime(3000);
      const overtaken = port.survey(second!);
      const newest = port.survey(third!);
      vi.advanceTimersByTime(900);
      expect([asks.length, opened()]).toEqual([1, 1]);
      vi.advanceTimersByTime(200);
      expect([asks.length, opened()]).toEqual([2, 2]);
      // The other end is new and knows no row.
      expect(asks[1]!.rows.length).toBe(rowCount(third!));
      answer();
      expect(await slow).toBeNull();
      expect(await overtaken).toBeNull();
      expect(inText(seen(await newest) as Plan)).toBe(inText(third!));
    } finally {
      vi.useRealTimers();
    }
  });

  test('does not drop what is answered in time', async () => {
    vi.useFakeTimers();
    try {
      const { port, asks, opened, answer } = bench();
      const [first, second] = [0, 1].map((n) => rename(emptyPlan(), `Job ${n}`));
      const slow = port.survey(first!);
      const newer = port.survey(second!);
      answer();
      vi.advanceTimersByTime(3900);
      answer();
      vi.advanceTimersByTime(10_000);
      expect([asks.length, opened()]).toEqual([2, 1]);
      expect(inText(seen(await slow) as Plan)).toBe(inText(first!));
      expect(inText(seen(await newer) as Plan)).toBe(inText(second!));
    } finally {
      vi.useRealTimers();
    }
  });

  test('opens a channel anew, and sends everything again, after the other end has died', async () => {
    const { port, asks, answer, die, opened } = bench();
    const plan = place(emptyPlan(), 1);
    const lost = port.survey(plan);
    const waiting = port.survey(rename(plan, 'Waits'));
    die('out of memory');
    await expect(lost).rejects.toThrow('out of memory');
    expect(opened()).toBe(2);
    expect(asks[1]!.rows).toHaveLength(rowCount(plan));
    answer();
    expect(seen(await waiting)).toEqual(rename(plan, 'Waits'));
  });
});
