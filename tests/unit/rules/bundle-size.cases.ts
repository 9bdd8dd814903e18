import { way } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = {
  pathways: {
    P1: {
      level: 'L1',
      points: [
        [0, 0],
        [9000, 0],
      ],
    },
    P2: {
      level: 'L1',
      kind: 'tray',
      points: [
        [0, 5000],
        [9000, 5000],
      ],
    },
  },
};
const jacks = (count: number) => Array.from({ length: count }, (_, i) => `J${i + 1}`);
const along = (count: number, pathway: string | null = null) =>
  way([1000, 500, 2900], [3000, 500, 2900], jacks(count), pathway);
const lay = (...ways: ReturnType<typeof way>[]) => context(rows, [], ways);

export const cases: RuleCases = {
  pass: [
    { what: 'a bundle of 24', on: lay(along(24)) },
    { what: 'a full tray', on: lay(along(60, 'P2')) },
    {
      what: 'cables that drop to the closet together',
      on: lay(way([0, 0, 2900], [0, 0, 1500], jacks(60))),
    },
  ],
  fail: [
    {
      what: 'the fullest stretch of each hook line and of free travel, once',
      on: lay(along(25, 'P1'), along(30, 'P1'), along(39), along(28)),
      says: [
        'Hook line P1: up to 30 cables lie together on supports.',
        'Ground level: up to 39 cables lie together on supports.',
      ],
      tells: ['Lay them as 2 bundles', 'Lay them as 2 bundles'],
      at: [2000, 500],
    },
    {
      what: 'forty, which want a tray',
      on: lay(along(40, 'P1')),
      says: ['Hook line P1: up to 40 cables lie together on supports.'],
      tells: ['Draw a tray'],
    },
  ],
  limits: {
    'cables in one bundle on supports': {
      within: lay(along(24, 'P1')),
      beyond: lay(along(25, 'P1')),
    },
  },
};
