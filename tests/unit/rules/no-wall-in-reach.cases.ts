import { context, type RuleCases } from './case.ts';

const rows = (outlet: object, kind = 'station') =>
  context({
    devices: { D1: { level: 'L1', kind, at: [100, 200] } },
    outlets: { O1: { level: 'L1', at: [100, 200], ...outlet } },
    jacks: {
      J1: { outlet: 'O1', label: 'A1', device: 'D1' },
      J2: { outlet: 'O1', label: 'A2', spare: true },
    },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'an outlet on a wall', on: rows({ mount: 'wall' }) },
    { what: 'a pole that somebody chose', on: rows({ mount: 'pole', placed: 'hand' }) },
    {
      what: 'a ceiling device with its outlet on the ceiling',
      on: rows({ mount: 'ceiling' }, 'access-point'),
    },
    {
      what: 'a pole for what does not belong on a wall',
      on: rows({ mount: 'pole' }, 'access-point'),
    },
  ],
  fail: [
    {
      what: 'a pole in place of a wall',
      on: rows({ mount: 'pole' }),
      says: ['No wall is within reach of Order station A1, so jack A1 sits on a pole.'],
      at: [100, 200],
    },
    {
      what: 'casework in place of a wall',
      on: rows({ mount: 'casework' }),
      says: ['No wall is within reach of Order station A1, so jack A1 sits on casework.'],
    },
  ],
  limits: {},
};
