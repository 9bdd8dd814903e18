import { context, type RuleCases } from './case.ts';

type Line = { a: [number, number]; b: [number, number]; length: number };

/** A picture at 10 mm to the pixel with a scale line and a check line. */
const picture = (scale: Line | null, check: Line | null, more: object = {}) =>
  context({
    backgrounds: {
      B1: {
        ...{ level: 'L1', asset: '0123456789abcdef', width: 2000, height: 2000, name: 'P1' },
        ...{ mmPerPixel: 10, scale, check, ...more },
      },
    },
  });

const across = (length: number): Line => ({ a: [0, 0], b: [1000, 0], length });
const down = (length: number): Line => ({ a: [0, 0], b: [0, 1000], length });

export const cases: RuleCases = {
  pass: [
    { what: 'a check that agrees', on: picture(across(10_000), down(10_000)) },
    { what: 'no check length', on: picture(across(10_000), null) },
    { what: 'a check without a scale, which another rule asks for', on: picture(null, down(9000)) },
    { what: 'a printed scale that agrees', on: picture(null, down(10_050), { ratio: 96 }) },
    { what: 'one percent too short', on: picture(across(10_000), down(10_101)) },
  ],
  fail: [
    {
      what: 'a picture stretched downwards: 10 m on the drawing are 8 m',
      on: picture(across(10_000), down(8000)),
      says: ['On P1, lengths across are right and lengths up and down are 25.0 % too long.'],
      tells: ['the picture is stretched'],
    },
    {
      what: 'the same picture, turned by a quarter',
      on: picture(across(10_000), down(8000), { turn: 90 }),
      says: ['On P1, lengths across are 25.0 % too long and lengths up and down are right.'],
    },
    {
      what: 'a slanting check on a picture stretched across',
      // 1000 px across are 8 m, 1000 px down are 10 m: the slant is the root of 164 m2.
      on: picture(down(10_000), { a: [0, 0], b: [1000, 1000], length: 12_806 }),
      says: ['On P1, lengths across are 25.0 % too long and lengths up and down are right.'],
    },
    {
      what: 'two lengths across that disagree',
      on: picture(across(10_000), { a: [0, 500], b: [1000, 500], length: 12_500 }),
      says: ["On P1, 41' across measures 32'-10\": off by -20.0 % (+ is too long)."],
      tells: ['set the scale anew'],
    },
    {
      what: 'two lengths down that disagree',
      on: picture(down(10_000), { a: [500, 0], b: [500, 1000], length: 5000 }),
      says: ['On P1, 16\'-5" up and down measures 32\'-10": off by +100.0 % (+ is too long).'],
    },
    {
      what: 'two slanting lengths that disagree',
      on: picture(
        { a: [0, 0], b: [600, 600], length: 8485 },
        { a: [0, 0], b: [600, 600], length: 7000 },
      ),
      says: ["On P1, 23' aslant measures 27'-10\": off by +21.2 % (+ is too long)."],
    },
    {
      what: 'a printed scale that the copy does not keep',
      on: picture(null, across(12_500), { ratio: 96 }),
      says: ["On P1, 41' across measures 32'-10\": off by -20.0 % (+ is too long)."],
      tells: ['The copy was resized'],
    },
  ],
  limits: {
    // The drawing shows 10,000 mm: 9901 is 99 mm off, which is 1 % of it at most; 9900 is 100 mm off.
    'check length off by': {
      within: picture(across(10_000), down(9901)),
      beyond: picture(across(10_000), down(9900)),
    },
  },
};
