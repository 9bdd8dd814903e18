import type { Point } from '../../../src/geometry/point.ts';
import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const through = (points: readonly Point[], fields: object = {}, label = 'A1') =>
  context({ pathways: { P1: { level: 'L1', kind: 'conduit', points, ...fields } } }, [
    makeRun({ label, pathways: ['P1'] }),
  ]);

/** Right angles, a metre apart. */
const twoBends: Point[] = [
  [0, 0],
  [1000, 0],
  [1000, 1000],
  [2000, 1000],
];
const threeBends: Point[] = [...twoBends, [2000, 0]];
const straight = (length: number): Point[] => [
  [0, 500],
  [length, 500],
];

export const cases: RuleCases = {
  pass: [
    { what: 'a straight conduit', on: through(straight(10_000)) },
    { what: 'a conduit with two right angles', on: through(twoBends) },
    {
      what: 'three bends that come to 135° together',
      on: through([
        [0, 0],
        [1000, 0],
        [2000, 1000],
        [3000, 1000],
        [4000, 2000],
      ]),
    },
    {
      what: 'hooks, which cables are laid on',
      on: through(threeBends, { kind: 'hook-line' }),
    },
    {
      what: 'a conduit that carries no cable',
      on: context({ pathways: { P1: { level: 'L1', kind: 'conduit', points: threeBends } } }),
    },
    {
      what: 'two conduits that meet, each with two bends',
      on: context(
        {
          pathways: {
            P1: { level: 'L1', kind: 'conduit', points: twoBends },
            P2: { level: 'L1', kind: 'conduit', points: [...twoBends].reverse() },
          },
        },
        [makeRun({ label: 'A1', pathways: ['P1', 'P2'] })],
      ),
    },
    {
      what: 'a corner that was clicked twice',
      on: through([
        [0, 0],
        [1000, 0],
        [1000, 0],
        [1000, 1000],
        [1000, 1000],
        [2000, 1000],
      ]),
    },
  ],
  fail: [
    {
      what: 'a third right angle, at its place',
      on: through(threeBends),
      says: ['In conduit P1 the bends come to 270°; cables (A1) are pulled round 180° at most.'],
      tells: ['Put a pull box into a straight part before this bend'],
      at: [2000, 1000],
    },
    {
      what: 'five bends of 45°, which are no right angles',
      on: through([
        [0, 0],
        [1000, 0],
        [2000, 1000],
        [3000, 1000],
        [4000, 2000],
        [5000, 2000],
        [6000, 3000],
      ]),
      says: ['In conduit P1 the bends come to 225°; cables (A1) are pulled round 180° at most.'],
      at: [5000, 2000],
    },
    {
      what: 'conduit under the slab, by the name that it has',
      on: through(threeBends, { kind: 'under-slab', name: 'Floor feed' }),
      says: ['In Floor feed the bends come to 270°; cables (A1) are pulled round 180° at most.'],
    },
    {
      what: 'a conduit that is too long, at the place where a pull box is due',
      on: through(straight(-40_000), { existing: true }),
      says: [
        "Between its ends conduit P1 is 131'-3\" long; cables (A1) are pulled through 100' at most.",
      ],
      tells: ['Put a pull box into a straight part before this place'],
      at: [-30_480, 500],
    },
    {
      what: 'one that bends too much and is too long, as two things',
      on: through([...threeBends, [2000, -40_000]]),
      says: [
        'In conduit P1 the bends come to 270°; cables (A1) are pulled round 180° at most.',
        "Between its ends conduit P1 is 144'-4\" long; cables (A1) are pulled through 100' at most.",
      ],
    },
  ],
  limits: {
    'bends between pull points, added up': {
      within: through(twoBends),
      beyond: through([...twoBends, [3000, 900]]),
    },
    'length between pull points': {
      within: through(straight(30_480)),
      beyond: through(straight(30_481)),
    },
  },
};
