import { context, type RuleCases } from './case.ts';

const rows = (jack: object) =>
  context({
    devices: { D1: { level: 'L1', kind: 'station', at: [0, 0] } },
    outlets: { O1: { level: 'L1', at: [100, 200] } },
    jacks: { J1: { outlet: 'O1', label: 'A1', ...jack } },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'a jack that serves a device', on: rows({ device: 'D1' }) },
    { what: 'a spare', on: rows({ spare: true }) },
  ],
  fail: [
    {
      what: 'a jack for nothing',
      on: rows({}),
      says: ['Jack A1 serves no device.'],
      at: [100, 200],
    },
  ],
  limits: {},
};
