import fc from 'fast-check';
import { expect, test } from 'vitest';
import { apportion, shownStep } from '../../../src/base/apportion.ts';
import { parseLength } from '../../../src/base/units.ts';
import { crossingWords, runSum, sumInWords } from '../../../src/desk/card/run-sum.ts';
import { part, runOf, smallSite } from './site.ts';

const { plan } = smallSite();
const PARTS = [
  part('up', 2388),
  part('across', 25_680, { zone: 'Z1' }),
  part('step', 0),
  part('down', 1346),
  part('outlet-slack', 305),
  part('closet-loop', 3048),
];

test('the sum of a run reads as one takes it, part by part to the cable', () => {
  expect(sumInWords(runSum(plan, runOf('J1', 'A1', PARTS), 'ft'))).toBe(
    'up inside the wall 7\'-10" + across Kitchen 84\'-3" + down to the panel 4\'-5" + ' +
      "slack at the jack 1' + loop at the closet 10' = 107'-6\"",
  );
});

test('parts of nothing are left out, and neighbours that read alike are put together', () => {
  const sum = runSum(
    plan,
    runOf('J1', 'A1', [
      part('across', 2000),
      part('across', 1000),
      part('step', 0),
      part('across', 500, { zone: 'Z1' }),
      part('across', 700),
    ]),
    'm',
  );
  expect(sum.lines.map((line) => [line.label, line.length])).toEqual([
    ['across, under the deck', 3000],
    ['across Kitchen', 500],
    ['across, under the deck', 700],
  ]);
});

test('a part too short to be shown has no line, and the lines still add up', () => {
  const sum = runSum(
    plan,
    runOf('J1', 'A1', [part('across', 25_681), part('step', 3), part('down', 1346)]),
    'ft',
  );
  expect(sum.lines.map((line) => line.group)).toEqual(['along', 'vertical']);
  expect(sum.lines.map((line) => line.label)).not.toContain('step between ceilings');
  expect(sum.lines.reduce((total, line) => total + parseLength(line.shown, 'ft')!, 0)).toBeCloseTo(
    parseLength(sum.cable, 'ft')!,
    3,
  );
});

test('every line belongs to along, up and down, or slack', () => {
  const kinds = [
    'up',
    'across',
    'step',
    'riser',
    'down',
    'outlet-slack',
    'field-loop',
    'closet-loop',
  ] as const;
  const sum = runSum(
    plan,
    runOf(
      'J1',
      'A1',
      kinds.map((kind) => part(kind, 1000)),
    ),
    'm',
  );
  expect(sum.lines.map((line) => line.group)).toEqual([
    'vertical',
    'along',
    'vertical',
    'vertical',
    'vertical',
    'slack',
    'slack',
    'slack',
  ]);
});

test('the cable stands against its own limit, the channel against that of the settings', () => {
  const run = runOf('J1', 'A1', [part('across', 45_000)], { limit: 60_000 });
  const sum = runSum(plan, run, 'm');
  expect(sum.link).toMatchObject({ length: '45.00 m', limit: '60.00 m', share: 0.75 });
  expect(sum.whole).toMatchObject({ length: '48.05 m', limit: '100.00 m' });
  expect(sum.whole.share).toBeCloseTo(0.48048, 10);
  expect(sum.cords).toBe('3.05 m');
});

test('holes are named by their work, and those without work are left out', () => {
  const crossing = {
    level: 'L1',
    wall: 'W1',
    construction: 'framed',
    at: [0, 0, 0],
    work: 'sleeve',
    firestop: false,
    price: 0,
    pathway: null,
  } as const;
  const run = runOf('J1', 'A1', PARTS, {
    crossings: [
      crossing,
      { ...crossing, work: 'none' },
      { ...crossing, work: 'none', firestop: true },
    ],
  });
  expect(crossingWords(plan, run)).toEqual([
    'sleeve through the framed wall',
    'through the framed wall above the ceiling, fire-stopped',
  ]);
});

test('what is shown adds up to what is shown below the line, in both units', () => {
  const lengths = fc.array(fc.integer({ min: 1, max: 60_000 }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(lengths, fc.constantFrom('ft' as const, 'm' as const), (parts, units) => {
      // Ends of a level apart, so that no two neighbours are put together.
      const run = runOf(
        'J1',
        'A1',
        parts.map((length, i) => part(i % 2 === 0 ? 'across' : 'step', length)),
      );
      const sum = runSum(plan, run, units);
      const shown = sum.lines.map((line) => parseLength(line.shown, units)!);
      const total = shown.reduce((a, b) => a + b, 0);
      expect(total).toBeCloseTo(parseLength(sum.cable, units)!, 6);
    }),
    { seed: 7, numRuns: 300 },
  );
});

test('no summand is rounded by a whole step or more', () => {
  const lengths = fc.array(fc.integer({ min: 0, max: 60_000 }), { maxLength: 12 });
  fc.assert(
    fc.property(lengths, (parts) => {
      const step = shownStep('ft');
      apportion(parts, step).forEach((rounded, i) => {
        expect(Math.abs(rounded - parts[i]!)).toBeLessThan(step);
      });
    }),
    { seed: 7, numRuns: 300 },
  );
  expect(apportion([], 10)).toEqual([]);
});
