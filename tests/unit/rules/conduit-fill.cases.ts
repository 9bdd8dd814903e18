import type { Point } from '../../../src/geometry/point.ts';
import { makeRun, riser } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const STRAIGHT: Point[] = [
  [100, 200],
  [9000, 200],
];
const TWO_BENDS: Point[] = [...STRAIGHT, [9000, 4000], [12_000, 4000]];

const conduit = (count: number, size: string, points: readonly Point[] = STRAIGHT, more = {}) =>
  context(
    { pathways: { P1: { level: 'L1', kind: 'conduit', points, size } }, ...more },
    Array.from({ length: count }, (_, i) => makeRun({ label: `A${i + 1}`, pathways: ['P1'] })),
  );

const thick = { settings: { settings: { cableDiameter: 8.636 } } };

const up = (count: number, size: string) =>
  context(
    {
      levels: { L2: { elevation: 4000 } },
      risers: { R1: { level: 'L1', upper: 'L2', at: [300, 400], size } },
    },
    Array.from({ length: count }, (_, i) =>
      makeRun({
        label: `B${i + 1}`,
        segments: [riser('R1', [300, 400, 2900], [300, 400, 6900])],
      }),
    ),
  );

export const cases: RuleCases = {
  pass: [
    // Handbook example: six cables of 0.24 in. take a 1 in. conduit.
    { what: 'six cables in 1 in.', on: conduit(6, '1 in.') },
    { what: 'a size that nobody can read', on: conduit(99, 'large') },
    { what: 'a bare number, which may be anything', on: conduit(99, '1') },
    { what: 'a box section, of which one side is not the inside', on: conduit(99, '2 x 4 in.') },
    { what: 'a size in mm that is no metric designator', on: conduit(99, '25 mm') },
    { what: 'a riser with room', on: up(29, '2"') },
    { what: 'a conduit without cables', on: conduit(0, '1/2"') },
  ],
  fail: [
    {
      what: 'a cable too many in 1 in., however its size is written',
      on: context(
        {
          pathways: Object.fromEntries(
            ['1"', '1 in. EMT', '27 mm', '1-inch'].map((size, i) => [
              `P${i + 1}`,
              { level: 'L1', kind: i === 3 ? 'sleeve' : 'conduit', points: STRAIGHT, size },
            ]),
          ),
        },
        Array.from({ length: 8 }, (_, i) =>
          makeRun({ label: `A${i + 1}`, pathways: ['P1', 'P2', 'P3', 'P4'] }),
        ),
      ),
      says: ['conduit P1', 'conduit P2', 'conduit P3', 'sleeve P4'].map(
        (name) => `Through ${name} go 8 cables (A1, A2, A3, A4, A5, A6, A7, A8); 1 in. holds 7.`,
      ),
      tells: ['Use 1-1/4 in.'],
      at: [100, 200],
    },
    {
      // 40 % less 15 % for each of two bends is 28 % (worked example of the handbook): 5 of 0.24 in. in 1 in.
      what: 'six in 1 in. with two bends',
      on: conduit(6, '1 in', TWO_BENDS),
      says: [
        'Through conduit P1 go 6 cables (A1, A2, A3, A4, A5, A6); with its bends 1 in. holds 5.',
      ],
    },
    {
      what: 'two thick cables in 3/4 in., where two may fill less than three',
      on: conduit(2, '3/4', STRAIGHT, thick),
      says: ['Through conduit P1 go 2 cables (A1, A2); 3/4 in. holds 1.'],
      tells: ['Use 1 in.'],
    },
    {
      what: 'more than any conduit holds',
      on: conduit(140, '4 in.'),
      says: [
        'Through conduit P1 go 140 cables (A1, A2, A3, A4, A5, A6, A7, A8 and 132 more); 4 in. holds 130.',
      ],
      tells: ['Lay several beside each other'],
    },
    {
      what: 'a riser that is too narrow',
      on: up(3, '1/2 in.'),
      says: ['Through Riser go 3 cables (B1, B2, B3); 1/2 in. holds 2.'],
      tells: ['Use 3/4 in.'],
      at: [300, 400],
    },
  ],
  limits: {
    'share of the inside that cables fill': {
      within: conduit(7, '1 in.'),
      beyond: conduit(8, '1 in.'),
    },
  },
};
