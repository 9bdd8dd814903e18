import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, type Changes } from '../../../src/plan/change.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import type { Survey } from '../../../src/results/types.ts';
import { createAnswerer } from '../../../src/worker/answering.ts';
import { createSurveyClient } from '../../../src/worker/client.ts';
import type { Answer, Ask } from '../../../src/worker/protocol.ts';

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

/** What the other end was asked to survey: it stands in for a survey. */
const echo = (plan: Plan): Survey => ({ seen: plan }) as unknown as Survey;
const seen = (survey: Survey | null): unknown =>
  survey && (survey as unknown as { seen: Plan }).seen;

/** The client with its other end in hand: questions wait until the test answers them. */
function bench(survey: (plan: Plan) => Survey = echo) {
  const asks: Ask[] = [];
  let opened = 0;
  let reply!: (answer: Answer) => void;
  let die!: (reason: string) => void;
  let answerer = createAnswerer(survey);
  const port = createSurveyClient((answered, died) => {
    opened++;
    reply = answered;
    die = died;
    answerer = createAnswerer(survey);
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

  test('sends only the tables that changed since the question before', async () => {
    const { port, asks, answer } = bench();
    const first = place(emptyPlan(), 1);
    void port.survey(first);
    answer();
    expect(Object.keys(asks[0]!.tables)).toHaveLength(Object.keys(first.tables).length);
    void port.survey(rename(first, 'Another name'));
    expect(Object.keys(asks[1]!.tables)).toEqual(['job']);
  });

  test('lets the other end see every plan whole, whatever changed in between', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(9), { maxLength: 12 }), async (list) => {
        const { port, answer } = bench();
        let plan = emptyPlan();
        for (const n of list) {
          plan = n < 5 ? place(plan, n) : rename(plan, `Job ${n}`);
          const asked = port.survey(plan);
          answer();
          expect(seen(await asked)).toEqual(plan);
        }
      }),
      { seed: 20_263, numRuns: 40 },
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

  test('opens a channel anew, and sends everything again, after the other end has died', async () => {
    const { port, asks, answer, die, opened } = bench();
    const plan = place(emptyPlan(), 1);
    const lost = port.survey(plan);
    const waiting = port.survey(rename(plan, 'Waits'));
    die('out of memory');
    await expect(lost).rejects.toThrow('out of memory');
    expect(opened()).toBe(2);
    expect(Object.keys(asks[1]!.tables)).toHaveLength(Object.keys(plan.tables).length);
    answer();
    expect(seen(await waiting)).toEqual(rename(plan, 'Waits'));
  });
});
