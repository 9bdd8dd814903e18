import { makeRun, noWay } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const square = [
  [0, 0],
  [9000, 0],
  [9000, 9000],
];
const rows = {
  closets: { C1: { level: 'L1', at: [10_000, 0] } },
  levels: { L2: { elevation: 3600, name: 'Upper' } },
  outlets: { O1: { level: 'L1', at: [100, 200] } },
  keepouts: { K1: { level: 'L1', name: 'Hood', outline: square } },
  zones: {
    Z1: { level: 'L1', outline: square },
    Z2: { level: 'L1', outline: square, name: 'Dining' },
  },
  walls: {
    W1: { level: 'L1', a: [0, 0], b: [9, 0], construction: 'insulated' },
    W2: { level: 'L1', a: [0, 0], b: [9, 0], exterior: true },
    W3: { level: 'L1', a: [0, 0], b: [9, 0] },
  },
};

const blocked = (table: 'keepouts' | 'walls' | 'zones', id: string, far = true) =>
  noWay({
    label: 'A1',
    outlet: 'O1',
    blocked: {
      reason: 'no-way',
      by: { table, id },
      reached: far ? [10_000, 3048, 2900] : null,
    },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'a run with a way', on: context(rows, [makeRun({ label: 'A1' })]) },
    {
      what: 'a whole level without closet and riser, of which another rule speaks once',
      on: context(rows, [
        noWay({
          ...{ label: 'A1', level: 'L2', closet: null },
          blocked: { reason: 'other-level', by: null, reached: null },
        }),
      ]),
    },
    {
      what: 'no closet at all, of which another rule speaks',
      on: context({}, [
        noWay({ label: 'A1', blocked: { reason: 'no-closet', by: null, reached: null } }),
      ]),
    },
  ],
  fail: [
    {
      what: 'a keep-out that bars it',
      on: context(rows, [blocked('keepouts', 'K1')]),
      says: ['Jack A1 has no way home: the keep-out "Hood" bars it, 10\' from the closet.'],
      at: [10_000, 3048],
      tells: ['Draw a pathway through it'],
    },
    {
      what: 'walls that bar it',
      on: context(rows, [
        blocked('walls', 'W1', false),
        blocked('walls', 'W2', false),
        blocked('walls', 'W3', false),
        blocked('zones', 'Z1', false),
        blocked('zones', 'Z2', false),
      ]),
      says: [
        'Jack A1 has no way home: an insulated wall bars it.',
        'Jack A1 has no way home: an outside wall bars it.',
        'Jack A1 has no way home: a wall bars it.',
        'Jack A1 has no way home: a closed ceiling bars it.',
        'Jack A1 has no way home: the closed ceiling of "Dining" bars it.',
      ],
      at: [100, 200],
      tells: [
        ...['Draw a conduit', 'Draw a conduit', 'Draw a conduit'],
        ...['Draw surface raceway', 'Draw surface raceway'],
      ],
    },
    {
      what: 'a closet on another level, and a floor box without a conduit',
      on: context(rows, [
        noWay({
          ...{ label: 'A1', outlet: 'O1', closet: null },
          blocked: { reason: 'other-level', by: null, reached: null },
        }),
        noWay({
          ...{ label: 'A2', outlet: 'O1', closet: null },
          blocked: { reason: 'no-under-slab', by: null, reached: [100, 200, 0] },
        }),
      ]),
      says: [
        'Jack A1 has no closet on its level, and no riser leads to one.',
        'Jack A2 sits in a floor box that no under-slab conduit leads to.',
      ],
      tells: ['Place a riser to a level with a closet', 'Draw the under-slab conduit'],
      at: [100, 200],
    },
    {
      what: 'a jack that may go to any closet, by the gap to the nearest',
      on: context({ ...rows, closets: { ...rows.closets, C2: { level: 'L1', at: [0, 0] } } }, [
        noWay({
          ...{ label: 'A1', outlet: 'O1', closet: null },
          blocked: { reason: 'no-way', by: null, reached: [10_000, 3048, 2900] },
        }),
      ]),
      says: ["Jack A1 has no way home: its cable ends 10' from the closet."],
    },
    {
      what: 'a cable that ends on a level without the closet, where a gap on the plan would mean nothing',
      on: context(rows, [
        noWay({
          label: 'A1',
          outlet: 'O1',
          blocked: { reason: 'no-way', by: null, reached: [10_000, 6096, 6500] },
        }),
      ]),
      says: ['Jack A1 has no way to a closet.'],
      at: [10_000, 6096],
    },
    {
      what: 'a closet by choice that no riser leads to',
      on: context(rows, [
        noWay({
          ...{ label: 'A1', outlet: 'O1', closet: 'C1' },
          blocked: { reason: 'other-level', by: null, reached: null },
        }),
      ]),
      says: ['No riser leads from jack A1 to Network closet, which was chosen for it.'],
      tells: ['Place a riser between their levels'],
      at: [100, 200],
    },
    {
      what: 'a pin that no cable can pass',
      on: context(
        {
          ...rows,
          pins: { N1: { level: 'L1', name: 'Beam', points: [[0, 0]] } },
          jacks: { J1: { outlet: 'O1', label: 'A1', pin: 'N1', spare: true } },
        },
        [
          noWay({
            ...{ label: 'A1', jack: 'J1', outlet: 'O1' },
            blocked: { reason: 'pin', by: null, reached: null },
          }),
        ],
      ),
      says: ['Jack A1 has a way home, but not past Beam.'],
      tells: ['Move the pin to where a cable can get'],
      at: [100, 200],
    },
    {
      what: 'nothing that can be named',
      on: context(rows, [
        noWay({
          label: 'A1',
          outlet: 'O1',
          blocked: { reason: 'no-way', by: null, reached: [10_000, 6096, 2900] },
        }),
        noWay({ label: 'A2', closet: null, blocked: null }),
      ]),
      says: [
        "Jack A1 has no way home: its cable ends 20' from the closet.",
        'Jack A2 has no way to a closet.',
      ],
      at: [10_000, 6096],
      tells: ['Draw a pathway that joins', 'Draw a pathway that joins'],
    },
  ],
  limits: {},
};
