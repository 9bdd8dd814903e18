import { context, type RuleCases } from './case.ts';

const riser = (elevation: number, upper = 'L2', level = 'L1') =>
  context({
    levels: { L2: { name: 'Basement', elevation } },
    risers: { R1: { level, upper, name: 'Shaft', at: [300, 400] } },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'a riser to a level above', on: riser(1) },
    { what: 'a riser from a level below', on: riser(-3600, 'L1', 'L2') },
  ],
  fail: [
    {
      what: 'a riser up to a level that lies below',
      on: riser(-3600),
      says: ['From Ground level up to Basement leads Shaft, but Basement lies below Ground level.'],
      at: [300, 400],
    },
    {
      what: 'a riser between levels whose height nobody has set',
      on: riser(0),
      says: ['From Ground level up to Basement leads Shaft, but their floors are at one height.'],
      tells: ['Set how high the floor of each level lies'],
    },
  ],
  limits: {},
};
