import { describe, expect, it } from 'vitest';
import { builtState, NOT_BUILT } from '../../../src/plan/built.ts';
import { parseBuilt, parseDay, parseTest } from '../../../src/plan/built-words.ts';

describe('what people write on the sheet', () => {
  it.each([
    ['p', 'pass'],
    [' PASS ', 'pass'],
    ['ok', 'pass'],
    ['f', 'fail'],
    ['X', 'fail'],
    ['', null],
    ['not tested', null],
    ['maybe', undefined],
    ['constructor', undefined],
  ])('reads the test %j', (text, test) => {
    expect(parseTest(text)).toBe(test);
  });

  it.each([
    ['2026-03-01', '2026-03-01'],
    ['2026/3/1', '2026-03-01'],
    ['3/1/2026', '2026-03-01'],
    ['3/1/26', '2026-03-01'],
    ['1.3.2026', '2026-03-01'],
    ['2024-02-29', '2024-02-29'],
    ['2026-02-29', null],
    ['1900-02-29', null],
    ['2026-04-31', null],
    ['2026-04-0', null],
    ['13/1/2026', null],
    ['3/1', null],
    ['soon', null],
  ])('reads the day %j', (text, day) => {
    expect(parseDay(text)).toBe(day);
  });
});

describe('a field of the record', () => {
  it.each([
    ['port', '1', 1],
    ['port', '10000', 10_000],
    ['port', '0', undefined],
    ['port', '10001', undefined],
    ['port', '', null],
    ['start', '0', 0],
    ['start', '33000 m', 33_000_000],
    ['start', '33000.001 m', undefined],
    ['by', ` ${'x'.repeat(400)} `, 'x'.repeat(400)],
    ['remark', 'x'.repeat(401), undefined],
    ['on', '1/1/2000', '2000-01-01'],
    ['on', ' ', ''],
  ] as const)('%s reads %j within what a file holds', (field, text, value) => {
    expect(parseBuilt(field, text, 'ft')).toBe(value);
  });
});

describe('the state of some jacks', () => {
  const of = (...tests: readonly ('pass' | 'fail' | null | 'open')[]) =>
    builtState(
      tests.map((test) => ({ built: test === 'open' ? null : { ...NOT_BUILT, by: 'KL', test } })),
    );

  it('is recorded only when all are, and failed as soon as one is', () => {
    expect(of()).toBe('none');
    expect(of('pass', 'open')).toBe('none');
    expect(of('pass', null)).toBe('recorded');
    expect(of('pass', 'pass')).toBe('passed');
    expect(of('open', 'fail')).toBe('failed');
  });
});
