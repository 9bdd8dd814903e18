import { expect, it } from 'vitest';
import { mayBeAslant } from '../../../src/app/pictures/aslant.ts';

it.each([
  ['a photo', 'image/jpeg', null, null, true],
  ['a scan, which says how fine it is', 'image/png', null, 300, false],
  ['a picture that says how large it is on paper', 'image/jpeg', 600, null, false],
  ['an SVG, which lies flat', 'image/svg+xml', null, null, false],
  ['a page of a PDF', 'application/pdf', 600, null, false],
])('%s may be taken at an angle or not', (_what, type, paper, dots, aslant) => {
  expect(mayBeAslant({ asset: { type }, paper, dots })).toBe(aslant);
});
