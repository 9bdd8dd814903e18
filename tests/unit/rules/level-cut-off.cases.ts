import { context, type RuleCases } from './case.ts';

const site = (more: object = {}, jackOn = 'L2') =>
  context({
    levels: { L2: { name: 'Mezzanine', elevation: 3600 }, L3: { elevation: 7200 } },
    closets: { C1: { level: 'L1', at: [0, 0] } },
    outlets: { O1: { level: jackOn, at: [100, 100] } },
    jacks: {
      J1: { outlet: 'O1', label: 'B1', spare: true },
      J2: { outlet: 'O1', label: 'B2', spare: true },
    },
    ...more,
  });
const riser = (level: string, upper: string) => ({
  risers: { R1: { level, upper, at: [0, 0] } },
});

export const cases: RuleCases = {
  pass: [
    { what: 'jacks on the level of the closet', on: site({}, 'L1') },
    { what: 'a riser that comes out on their level', on: site(riser('L1', 'L2')) },
    { what: 'a riser that starts from their level', on: site(riser('L2', 'L3')) },
    { what: 'no closet at all, of which another rule speaks', on: site({ closets: {} }) },
    {
      what: 'a closet on each level',
      on: site({
        closets: { C1: { level: 'L1', at: [0, 0] }, C2: { level: 'L2', at: [0, 0] } },
      }),
    },
  ],
  fail: [
    {
      what: 'jacks on a level without closet and riser, once for all of them',
      on: site(riser('L1', 'L3')),
      says: ['Mezzanine has no closet, and no riser leads from it. Jacks that wait: 2.'],
      tells: ['Place a riser to a level with a closet'],
      at: null,
    },
  ],
  limits: {},
};
