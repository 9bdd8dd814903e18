import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { kinds } from '../../../src/kinds/index.ts';
import {
  BUILT_FIELDS,
  builtLength,
  builtPorts,
  countBuilt,
  marksAgainst,
  NOT_BUILT,
} from '../../../src/plan/built.ts';
import { parseBuilt } from '../../../src/plan/built-words.ts';
import { apply, invert } from '../../../src/plan/change.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { planWith } from '../takeoff/make-run.ts';
import { ask, refusal, step } from './steps.ts';

const known = new Set(kinds.keys());
const bare = planWith({
  outlets: { O1: { at: [1200, 3400] } },
  jacks: {
    J1: { outlet: 'O1', label: 'A1', spare: true },
    J2: { outlet: 'O1', label: 'A2', spare: true },
  },
});
const built = (plan: Plan, id = 'J1') => plan.tables.jacks.get(id)!.built;
const reopened = (plan: Plan): Plan => {
  const read = readPlan(writePlan(plan), known);
  if (!read.ok) throw new Error(read.issues[0]!.message);
  return read.value.plan;
};

describe('recording what was built', () => {
  it('keeps each field as it comes in, and where the outlet hung at the first of them', () => {
    const first = step(bare, 'record', { records: [{ jack: 'J1', fields: { start: 1000 } }] });
    const moved = step(first, 'edit', { table: 'outlets', id: 'O1', fields: { at: [0, 0] } });
    const second = step(moved, 'record', { records: [{ jack: 'J1', fields: { test: 'pass' } }] });
    expect(built(second)).toEqual({ ...NOT_BUILT, start: 1000, test: 'pass', at: [1200, 3400] });
    expect(built(second, 'J2')).toBeNull();
  });

  it('is no record any more when its last field is taken away', () => {
    const there = step(bare, 'record', { records: [{ jack: 'J1', fields: { by: 'KL' } }] });
    expect(step(there, 'record', { records: [{ jack: 'J1', fields: { by: '' } }] })).toEqual(bare);
  });

  it('is one step for a whole list, named by what it records, and can be taken back', () => {
    const records = ['J1', 'J2'].map((jack) => ({ jack, fields: { length: 9000 } }));
    const outcome = ask(bare, 'record', { records });
    const single = ask(bare, 'record', { records: records.slice(0, 1) });
    if (!outcome.ok || !single.ok) throw new Error('refused');
    expect(renderMessage(outcome.label, 'ft')).toBe('Record 2 cables as built');
    expect(renderMessage(single.label, 'ft')).toBe('Record A1 as built');
    const after = apply(bare, outcome.changes);
    expect(apply(after, invert(outcome.changes))).toEqual(bare);
  });

  it('refuses what a file could not hold, and a jack that is gone', () => {
    const fields = { on: 'yesterday' };
    expect(refusal(bare, 'record', { records: [{ jack: 'J1', fields }] })).toContain(
      'does not fit',
    );
    expect(refusal(bare, 'record', { records: [{ jack: 'J9', fields: {} }] })).toContain(
      'no longer',
    );
  });

  it('is not copied with a level: the copy is still to be built', () => {
    const there = step(bare, 'record', { records: [{ jack: 'J1', fields: { by: 'KL' } }] });
    const two = step(there, 'copy-level', { level: 'L1', side: 'above', devices: true });
    const all = [...two.tables.jacks.values()].map((jack) => jack.built?.by ?? null);
    expect(all).toEqual(['KL', null, null, null]);
  });
});

describe('the record in a file', () => {
  it('can hold all that is understood of what people type', () => {
    const figures = fc.string({ unit: fc.constantFrom(..."0123456789-./,' ") });
    const day = fc
      .tuple(fc.nat({ max: 9999 }), fc.nat({ max: 13 }), fc.nat({ max: 32 }))
      .map(([y, m, d]) => `${String(y).padStart(4, '0')}-${m}-${d}`);
    const text = fc.oneof(figures, day, fc.string({ maxLength: 500 }), fc.constantFrom('p', 'x'));
    const units = fc.constantFrom('ft' as const, 'm' as const);
    fc.assert(
      fc.property(fc.constantFrom(...BUILT_FIELDS), text, units, (field, typed, unit) => {
        const value = parseBuilt(field, typed, unit);
        if (value === undefined) return;
        const records = [{ jack: 'J1', fields: { [field]: value } }];
        expect(ask(bare, 'record', { records })).toMatchObject({ ok: true });
      }),
      { seed: 30, numRuns: 1000 },
    );
  });

  it('comes back as it was written, whatever was recorded', () => {
    const length = fc.option(fc.nat({ max: 33_000_000 }), { nil: null });
    const fields = fc.record({
      ...{ start: length, end: length, length },
      port: fc.option(fc.integer({ min: 1, max: 10_000 }), { nil: null }),
      test: fc.constantFrom('pass' as const, 'fail' as const, null),
      ...{ by: fc.string({ maxLength: 400 }), remark: fc.string({ maxLength: 400 }) },
      on: fc.constantFrom('', '2026-03-01'),
    });
    fc.assert(
      fc.property(fields, (record) => {
        const plan = step(bare, 'record', { records: [{ jack: 'J1', fields: record }] });
        expect(reopened(plan)).toEqual(plan);
      }),
      { seed: 26, numRuns: 200 },
    );
  });

  it('is missing from older files, which open with nothing recorded', () => {
    const older = writePlan(bare).replaceAll(',"built":null', '');
    expect(older).not.toContain('built');
    const read = readPlan(older, known);
    expect(read.ok && read.value.plan).toEqual(bare);
  });
});

describe('what follows from the record', () => {
  it('is the length as typed, else the difference of both marks, counted up or down', () => {
    expect(builtLength(null)).toBeNull();
    expect(builtLength({ ...NOT_BUILT, start: 5000 })).toBeNull();
    expect(builtLength({ ...NOT_BUILT, start: 5000, end: 8000 })).toBe(3000);
    expect(builtLength({ ...NOT_BUILT, start: 8000, end: 5000 })).toBe(3000);
    expect(builtLength({ ...NOT_BUILT, start: 0, end: 5000, length: 4800 })).toBe(4800);
  });

  it('is what the marks say where a typed length says otherwise', () => {
    const marks = { ...NOT_BUILT, start: 30_000, end: 0 };
    expect(marksAgainst(null)).toBeNull();
    expect(marksAgainst(marks)).toBeNull();
    expect(marksAgainst({ ...marks, length: 31_500 })).toBeNull();
    expect(marksAgainst({ ...marks, length: 31_501 })).toBe(30_000);
    expect(marksAgainst({ ...marks, end: null, length: 99_000 })).toBeNull();
  });

  it('is how far the record is, and which ports are taken', () => {
    const jacks = ['J1', 'J2', 'J3', 'J4', 'J5', 'J6'];
    const six = planWith({
      outlets: { O1: { at: [0, 0] } },
      jacks: Object.fromEntries(
        jacks.map((id, i) => [id, { outlet: 'O1', label: `A${i + 1}`, spare: true }]),
      ),
    });
    const tests = ['fail', 'pass', 'pass', null] as const;
    const records = tests.map((test, i) => ({ jack: jacks[i]!, fields: { test, by: 'KL' } }));
    const plan = step(six, 'record', {
      records: [...records, { jack: 'J2', fields: { port: 7 } }],
    });
    expect(countBuilt(plan)).toEqual({ cables: 6, recorded: 4, passed: 2, failed: 1 });
    expect([...builtPorts(plan)]).toEqual([['J2', 7]]);
  });
});
