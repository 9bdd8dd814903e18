import { context, type RuleCases } from './case.ts';

/** A station at the origin whose port is 1 m up, and its outlet somewhere, put there by hand. */
const outletAt = (x: number, height = 1000, more: object = {}) =>
  context({
    levels: { L2: { elevation: 3000 } },
    devices: { D1: { level: 'L1', kind: 'station', at: [0, 0], height: 1000, cord: 2134 } },
    outlets: { O1: { level: 'L1', at: [x, 0], height, placed: 'hand', ...more } },
    jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
  });

const shared = (printerX: number) =>
  context({
    devices: {
      D1: { level: 'L1', kind: 'station', at: [0, 0], height: 1000 },
      D2: { level: 'L1', kind: 'printer', at: [printerX, 0], height: 1000, host: 'D1' },
    },
    outlets: { O1: { level: 'L1', at: [-1000, 0], height: 1000 } },
    jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'an outlet beside the device', on: outletAt(500) },
    {
      what: 'a device without a jack, of which another rule speaks',
      on: context({ devices: { D1: { level: 'L1', kind: 'station', at: [0, 0] } } }),
    },
    { what: 'a printer that reaches the station whose jack it shares', on: shared(2000) },
  ],
  fail: [
    {
      what: 'an outlet 9 ft away',
      on: outletAt(2743),
      says: ["Jack A1 is 9' from Order station A1; the cord is 7'."],
      at: [0, 0],
    },
    {
      what: 'an outlet too high above the device: 5 ft across and 12 ft up are 13 ft',
      on: outletAt(1524, 1000 + 3658),
      says: ["Jack A1 is 13' from Order station A1; the cord is 7'."],
    },
    {
      what: 'an outlet on the level above',
      on: outletAt(0, 1000, { level: 'L2' }),
      says: ["Jack A1 is 9'-10\" from Order station A1; the cord is 7'."],
    },
    {
      what: 'an outlet beyond every cord in stock',
      on: outletAt(6096),
      says: ["Jack A1 is 20' from Order station A1; the cord is 7'."],
      tells: ['no cord in stock'],
    },
    {
      what: 'a printer far from the station whose jack it shares',
      on: shared(3048),
      says: ["Jack A1 is 10' from Printer A1; the cord is 7'."],
      at: [3048, 0],
    },
  ],
  limits: {
    'straight way from port to jack, in three dimensions': {
      within: outletAt(2134),
      beyond: outletAt(2135),
    },
  },
};
