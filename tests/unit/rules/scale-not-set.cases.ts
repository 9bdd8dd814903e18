import { context, type RuleCases } from './case.ts';

const picture = { level: 'L1', asset: '0123456789abcdef', width: 1000, height: 800 };

export const cases: RuleCases = {
  pass: [
    { what: 'no background', on: context({}) },
    {
      what: 'a background with its scale',
      on: context({
        backgrounds: { B1: { ...picture, scale: { a: [0, 0], b: [100, 0], length: 1000 } } },
      }),
    },
    { what: 'a printed scale', on: context({ backgrounds: { B1: { ...picture, ratio: 96 } } }) },
  ],
  fail: [
    {
      what: 'a background without a scale',
      on: context({ backgrounds: { B1: { ...picture, name: 'Lease plan', origin: [50, 60] } } }),
      says: ['The scale of Lease plan is not set, so every length drawn over it is a guess.'],
      at: [50, 60],
    },
    {
      what: 'one of two, without a name',
      on: context({
        backgrounds: {
          B1: { ...picture, scale: { a: [0, 0], b: [100, 0], length: 1000 } },
          B2: picture,
        },
      }),
      says: ['The scale of the background is not set, so every length drawn over it is a guess.'],
    },
  ],
  limits: {},
};
