import { context, type RuleCases } from './case.ts';

const at = { level: 'L1', at: [100, 200] };
const station = { ...at, kind: 'station' };

export const cases: RuleCases = {
  pass: [
    {
      what: 'a device with a jack, and one that shares it',
      on: context({
        devices: { D1: station, D2: { ...at, kind: 'printer', host: 'D1' } },
        outlets: { O1: at },
        jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
      }),
    },
    {
      what: 'a device that needs no cable, and one of an unknown kind',
      on: context({ devices: { D1: { ...at, kind: 'handheld' }, D2: { ...at, kind: 'lamp' } } }),
    },
  ],
  fail: [
    {
      what: 'a device without a jack; the one that shares it waits for it',
      on: context({ devices: { D1: station, D2: { ...at, kind: 'printer', host: 'D1' } } }),
      says: ['Order station D1 has no jack.'],
      at: [100, 200],
    },
    {
      what: 'a device that shares with one that needs no jack',
      on: context({
        devices: {
          D1: { ...at, kind: 'handheld' },
          D2: { ...at, kind: 'printer', name: 'Bar printer', host: 'D1' },
        },
      }),
      says: ['Bar printer has no jack.'],
    },
  ],
  limits: {},
};
