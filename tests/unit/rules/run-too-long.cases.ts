import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = { outlets: { O1: { level: 'L1', at: [100, 200] } } };
const run = (cable: number, limit = 90_000) =>
  context(rows, [makeRun({ label: 'A1', outlet: 'O1', cable, limit })]);

/** A jack that somebody sent to a closet far away; another closet so far from the jack, mm. */
const sent = (away: number, level = 'L1') =>
  context(
    {
      ...rows,
      levels: { L2: { elevation: 4000 } },
      closets: {
        C1: { level: 'L1', name: 'Office', at: [95_000, 200] },
        C2: { level, name: 'Back room', at: [100 + away, 200] },
      },
      jacks: { J1: { outlet: 'O1', label: 'A1', closet: 'C1', spare: true } },
    },
    [makeRun({ label: 'A1', jack: 'J1', outlet: 'O1', cable: 100_000, slack: 3000 })],
  );

export const cases: RuleCases = {
  pass: [{ what: 'a short run', on: run(30_000) }],
  fail: [
    {
      what: 'a run of 100 m',
      on: run(100_000),
      says: ['The cable of A1 is 328\'-1" long; the most is 295\'-3".'],
      at: [100, 200],
      tells: ['Move the jack or the closet'],
    },
    {
      what: 'a run whose long cords take from its cable',
      on: run(89_000, 80_000),
      says: ["The cable of A1 is 292' long; the most is 262'-6\"."],
      tells: ['Use shorter cords'],
    },
    {
      what: 'a run to a closet by choice, though another may be near enough',
      on: sent(87_000),
      says: ['The cable of A1 is 328\'-1" long; the most is 295\'-3".'],
      tells: ['It goes to Office by choice. Let it take the nearest: Back room may do.'],
    },
    {
      what: 'a run to a closet by choice, with the other as good as too far',
      on: sent(87_001),
      says: ['The cable of A1 is 328\'-1" long; the most is 295\'-3".'],
      tells: ['Move the jack or the closet'],
    },
    {
      what: 'a run to a closet by choice, with the other on another level',
      on: sent(1000, 'L2'),
      says: ['The cable of A1 is 328\'-1" long; the most is 295\'-3".'],
      tells: ['Move the jack or the closet'],
    },
  ],
  limits: {
    cable: { within: run(90_000), beyond: run(90_001) },
    'cable with its cords': { within: run(85_000, 85_000), beyond: run(85_001, 85_000) },
  },
};
