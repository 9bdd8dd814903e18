import { context, type RuleCases } from './case.ts';

const rows = (device: [number, number], outlet: [number, number], level = 'L1') =>
  context({
    levels: { L2: { elevation: 3000 } },
    keepouts: {
      K1: {
        level: 'L1',
        name: 'Walk-in',
        outline: [
          [0, 0],
          [3000, 0],
          [3000, 3000],
          [0, 3000],
        ],
        clearance: 500,
      },
    },
    devices: { D1: { level, kind: 'station', at: device } },
    outlets: { O1: { level, at: outlet }, O2: { level, at: [9000, 9000] } },
    jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
  });

const square = (side: number) => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

export const cases: RuleCases = {
  pass: [
    { what: 'both outside', on: rows([4000, 0], [5000, 0]) },
    { what: 'on its border and in its corner', on: rows([3000, 1000], [0, 0]) },
    { what: 'above it on another level', on: rows([1000, 1000], [1000, 1000], 'L2') },
  ],
  fail: [
    {
      what: 'the device inside',
      on: rows([2999, 1000], [4000, 0]),
      says: ['Order station A1 stands in the keep-out "Walk-in".'],
      at: [2999, 1000],
    },
    {
      what: 'device and outlet inside',
      on: rows([1000, 1000], [1, 1]),
      says: [
        'Order station A1 stands in the keep-out "Walk-in".',
        'Jack A1 stands in the keep-out "Walk-in".',
      ],
    },
    {
      what: 'an outlet without a jack inside',
      on: context({
        keepouts: {
          K1: {
            ...{ level: 'L1', name: 'Hood' },
            outline: [
              [0, 0],
              [9, 0],
              [9, 9],
            ],
          },
        },
        outlets: { O7: { level: 'L1', at: [6, 3] } },
      }),
      says: ['Outlet O7 stands in the keep-out "Hood".'],
    },
    {
      what: 'a closet inside, and a riser on the level that it comes out on',
      on: context({
        levels: { L2: { elevation: 3000 } },
        keepouts: { K1: { level: 'L2', name: 'Shaft', outline: square(3000) } },
        closets: { C1: { level: 'L2', at: [1000, 1000] }, C2: { level: 'L1', at: [1000, 1000] } },
        risers: { R1: { level: 'L1', upper: 'L2', name: '', at: [2000, 2000] } },
      }),
      says: [
        'Network closet C1 stands in the keep-out "Shaft".',
        'Riser R1 stands in the keep-out "Shaft".',
      ],
      at: [1000, 1000],
    },
  ],
  limits: {},
};
