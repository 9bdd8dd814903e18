import { context, type RuleCases } from './case.ts';

const length = { a: [0, 0], b: [100, 0], length: 5000 };
const picture = (fields: object) =>
  context({
    backgrounds: {
      B1: { asset: 'a'.repeat(16), width: 800, height: 600, origin: [100, 200], ...fields },
    },
  });

export const cases: RuleCases = {
  pass: [
    { what: 'a plan without a picture', on: context({}) },
    { what: 'a scale that was checked', on: picture({ scale: length, check: length }) },
    { what: 'a printed scale that was checked', on: picture({ ratio: 96, check: length }) },
    { what: 'a picture without a scale, of which another rule speaks', on: picture({}) },
  ],
  fail: [
    {
      what: 'a scale that rests on one length',
      on: picture({ scale: length, name: 'scan.png' }),
      says: ['The scale of scan.png rests on one length, and nothing confirms it.'],
      at: [100, 200],
    },
    {
      what: 'a printed scale, which a copy may have resized',
      on: picture({ ratio: 96 }),
      says: ['The scale of the background is the one printed on it, and no length confirms it.'],
    },
    {
      what: 'a picture without a name',
      on: picture({ scale: length }),
      says: ['The scale of the background rests on one length, and nothing confirms it.'],
    },
  ],
  limits: {},
};
