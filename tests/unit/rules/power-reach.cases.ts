import { context, type RuleCases } from './case.ts';

const station = { level: 'L1', kind: 'station', at: [0, 0], height: 2100 };
const powerAt = (x: number, level = 'L1', reach = 1829) =>
  context({
    settings: { settings: { powerReach: reach } },
    levels: { L2: { elevation: 3000 } },
    devices: { D1: station },
    powers: { E1: { level, at: [x, 0] } },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'a power outlet below the device', on: powerAt(0) },
    {
      what: 'a device that is fed by its data cable, and one of an unknown kind',
      on: context({
        devices: { D1: { ...station, kind: 'access-point' }, D2: { ...station, kind: 'lamp' } },
      }),
    },
  ],
  fail: [
    {
      what: 'no power outlet',
      on: context({ devices: { D1: { ...station, name: 'Till' } } }),
      says: ["Till has no power outlet within 6'."],
      at: [0, 0],
    },
    {
      what: 'a power outlet on another level',
      on: powerAt(0, 'L2'),
      says: ["Order station D1 has no power outlet within 6'."],
    },
    {
      what: 'a stricter reach in the settings',
      on: powerAt(1000, 'L1', 914),
      says: ["Order station D1 has no power outlet within 3'."],
    },
  ],
  limits: {
    'distance on the plan to the nearest power outlet': {
      within: powerAt(1829),
      beyond: powerAt(1830),
    },
  },
};
