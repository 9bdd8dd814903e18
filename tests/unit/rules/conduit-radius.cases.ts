import type { Point } from '../../../src/geometry/point.ts';
import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

/** A jog aside of so many mm. */
const jog = (aside: number, size = '1 in.', kind = 'conduit') => {
  const points: Point[] = [
    [0, 0],
    [4000, 0],
    [4000, aside],
    [9000, aside],
  ];
  return context({ pathways: { P1: { level: 'L1', kind, points, size } } }, [
    makeRun({ label: 'A1', pathways: ['P1'] }),
  ]);
};

export const cases: RuleCases = {
  pass: [
    { what: 'a jog with room for two sweeps', on: jog(1000) },
    { what: 'a jog in a conduit whose size is not known', on: jog(100, '') },
    { what: 'a jog of hooks', on: jog(100, '1 in.', 'hook-line') },
    { what: 'no jog at all', on: jog(0) },
  ],
  fail: [
    {
      // 6 × 1.049 in. is 6.3 in.; two right angles take twice that.
      what: 'a jog that two sweeps have no room in',
      on: jog(152),
      says: [
        'In conduit P1 a piece of 6" stands where bends of 1 in. conduit take 1\'-1", at a radius of 6".',
      ],
      at: [4000, 76],
    },
    {
      // 10 × 3.356 in. above 2 in.
      what: 'a jog in large conduit, which bends wider',
      on: jog(1524, '3"'),
      says: [
        "In conduit P1 a piece of 5' stands where bends of 3 in. conduit take 5'-7\", at a radius of 2'-10\".",
      ],
    },
    {
      what: 'a bend right at the end',
      on: context(
        {
          pathways: {
            P1: {
              ...{ level: 'L1', kind: 'conduit', size: '1 in.' },
              points: [
                [0, 0],
                [4000, 0],
                [4000, 51],
              ],
            },
          },
        },
        [makeRun({ label: 'A1', pathways: ['P1'] })],
      ),
      says: [
        'In conduit P1 a piece of 2" stands where bends of 1 in. conduit take 6", at a radius of 6".',
      ],
    },
  ],
  limits: {
    // 2 × 6 × 26.6446 mm = 319.7 mm.
    'straight drawn before, between and after bends': { within: jog(320), beyond: jog(319) },
  },
};
