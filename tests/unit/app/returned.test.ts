import { expect, it } from 'vitest';
import { decoded, readReturned } from '../../../src/app/returned.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';

it.each([
  ['UTF-8', [0xc3, 0xa9]],
  ['UTF-8 with its mark', [0xef, 0xbb, 0xbf, 0xc3, 0xa9]],
  ['UTF-16', [0xff, 0xfe, 0xe9, 0x00]],
  ['the code page of western Windows', [0xe9]],
])('a list is read in %s', (_, bytes) => {
  expect(decoded(new Uint8Array(bytes))).toBe('\u00e9');
});

it('refuses what is no text', async () => {
  const plan = emptyPlan();
  const file = new File([new Uint8Array([0x50, 0x4b, 3, 4, 0, 0])], 'schedule.xlsx');
  await expect(readReturned(file, plan, createSurveyor(kinds)(plan), kinds)).rejects.toMatchObject({
    words: { params: { name: 'schedule.xlsx' } },
  });
});
