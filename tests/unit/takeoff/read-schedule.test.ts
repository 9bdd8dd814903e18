import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { FOOT } from '../../../src/base/units.ts';
import { builtLength, NOT_BUILT } from '../../../src/plan/built.ts';
import { boxPlan } from '../../../src/takeoff/box-plan.ts';
import { cableSchedule, cableScheduleCsv } from '../../../src/takeoff/cable-schedule.ts';
import { parseCsv, toCsv } from '../../../src/takeoff/csv.ts';
import { readSchedule } from '../../../src/takeoff/read-schedule.ts';
import { testKinds } from '../rules/test-kinds.ts';
import { makeRun, planWith } from './make-run.ts';

const built = {
  ...NOT_BUILT,
  start: 1001,
  end: 20_003,
  test: 'fail' as const,
  remark: '=open "pair"',
};
const plan = planWith({
  closets: { C1: { level: 'L1', at: [0, 0] } },
  outlets: { O1: { at: [0, 0] } },
  jacks: {
    J1: { outlet: 'O1', label: 'A1', spare: true, built },
    J2: { outlet: 'O1', label: 'A2', spare: true },
    J3: { outlet: 'O1', label: 'A3', spare: true },
  },
});
const runs = ['1', '2', '3'].map((n) => makeRun({ label: `A${n}`, jack: `J${n}`, device: null }));
const rows = cableSchedule(plan, testKinds, runs, boxPlan(runs, 304_800));
const said = (text: string, units: 'ft' | 'm' = 'ft') => {
  const { faults, ...rest } = readSchedule(text, rows, units);
  return { ...rest, faults: faults.map((fault) => renderMessage(fault, 'ft')) };
};

const DAY = '2026-03-01';

describe('reading a CSV file', () => {
  it('gives back what was written', () => {
    const cells = [
      ['a', 'b,c', 'say "so"', 'two\nlines'],
      [' edge', '', '=1+1', '-3'],
    ];
    expect(parseCsv(toCsv(cells))).toEqual(cells);
  });

  it('gives back whatever was written', () => {
    const cell = fc.oneof(
      fc.string({ unit: fc.constantFrom(...'ab ,;"\'=+-@1\t\r\n') }),
      fc.string({ unit: 'grapheme' }).filter((text) => !text.startsWith('\uFEFF')),
    );
    const table = fc
      .integer({ min: 2, max: 5 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1 }),
      );
    fc.assert(
      fc.property(table, (cells) => {
        expect(parseCsv(toCsv(cells))).toEqual(cells);
      }),
      { seed: 29, numRuns: 500 },
    );
  });

  it.each(['\n', '\r\n', '\r'])('takes lines that end in %j, below a title', (end) => {
    expect(parseCsv(['Job', 'Cable;By', 'A1;KL, MN', ''].join(end))).toEqual([
      ['Job'],
      ['Cable', 'By'],
      ['A1', 'KL, MN'],
    ]);
  });

  it.each([',', ';', '\t'])('takes %j between cells, any line end, and a mark in front', (by) => {
    const text = `\uFEFFCable${by}Test${by}By\nA1${by}"p"${by}\r\n\nA2${by}f${by}KL`;
    expect(parseCsv(text)).toEqual([
      ['Cable', 'Test', 'By'],
      ['A1', 'p', ''],
      [''],
      ['A2', 'f', 'KL'],
    ]);
  });
});

describe('a cable schedule that came back', () => {
  it.each(['ft', 'm'] as const)('in %s changes nothing where nobody wrote into it', (units) => {
    const nothing = { records: [], cells: [], faults: [] };
    expect(said(cableScheduleCsv(rows, units), 'ft')).toEqual(nothing);
    expect(said(cableScheduleCsv(rows, units).replaceAll(',', ';'), 'm').records).toEqual([]);
  });

  it('changes nothing where a spreadsheet wrote numbers and days in its own way', () => {
    const dated = rows.map((row) => ({ ...row, built: row.built && { ...row.built, on: DAY } }));
    const list = cableScheduleCsv(dated, 'm');
    expect(list).toContain(',1,20,19,19002,fail,2026-03-01,');
    const theirs = list
      .replaceAll(',', ';')
      .replace(';1;20;19;19002;fail;2026-03-01;', ';1,00;20,000;19,00;19.002;FAIL;01.03.2026;');
    expect(theirs).toContain(';1,00;');
    expect(readSchedule(theirs, dated, 'm')).toEqual({ records: [], cells: [], faults: [] });
  });

  it('reads numbers as the file writes them: a comma is a point between semicolons, and of thousands else', () => {
    const length = (text: string) => said(text).records[0]?.fields.start;
    expect(length('Cable;Start mark (ft)\nA2;12,5\n')).toBe(3810);
    expect(length('Cable;Start mark (m)\nA2;1.250,5\n')).toBe(1_250_500);
    expect(length('Cable,Start mark (ft)\nA2,"1,250.5"\n')).toBe(Math.round(1250.5 * FOOT));
    expect(length('Cable,Start mark (m)\nA2,"1,250"\n')).toBe(1_250_000);
    expect(length('Cable\tStart mark (m)\nA2\t12,5\n')).toBe(12_500);
    expect(length('Cable\tStart mark (m)\nA2\t1,250\n')).toBe(1250);
  });

  it('leaves numbers in words, and titles with room round them, as they are', () => {
    const text = ' Cable ; Start mark (m) ; Remark ; Colour \n A2 ; 12,5 ; 1.250,5 ; red \n';
    expect(said(text)).toMatchObject({
      records: [{ jack: 'J2', fields: { start: 12_500, remark: '1.250,5' } }],
      cells: [{ column: 'Start mark (m)' }, { column: 'Remark' }],
      faults: ['The column Colour is not known, and not read.'],
    });
    expect(said('Cable,By,Port\nA2,"1,250","1,250"\n').records).toEqual([
      { jack: 'J2', fields: { by: '1,250', port: 1250 } },
    ]);
  });

  it('takes words as they are written, also where letters alone changed from small to large', () => {
    expect(said('Cable,Remark\nA1,=Open "pair"\n').records).toEqual([
      { jack: 'J1', fields: { remark: '=Open "pair"' } },
    ]);
  });

  it('reads the first of two columns of one kind, and says so', () => {
    const { records, faults } = said('CABLE,Test,Start mark (ft),Start mark (m)\nA2,p,10,4\n');
    expect(records).toEqual([{ jack: 'J2', fields: { test: 'pass', start: 3048 } }]);
    expect(faults).toEqual([
      'The column Start mark (m) stands beside another of its kind, and is not read.',
    ]);
  });

  it('records what was filled in, by label and by the units of its columns', () => {
    const text =
      'Cable,Port,Start mark (ft),End mark (m),As built (ft),Test,Date,By,Remark\n' +
      'a2,24,1000,320.5,,P,3/1/2026,KL,"ok, loose"\nA3,,,,12-6,,,,\n';
    expect(said(text)).toEqual({
      records: [
        {
          jack: 'J2',
          fields: {
            ...{ port: 24, start: 1000 * FOOT, end: 320_500, test: 'pass' },
            ...{ on: '2026-03-01', by: 'KL', remark: 'ok, loose' },
          },
        },
        { jack: 'J3', fields: { length: 3810 } },
      ],
      cells: expect.arrayContaining([
        { label: 'A2', column: 'Port', field: 'port', before: 2, after: 24 },
        { label: 'A3', column: 'As built (ft)', field: 'length', before: null, after: 3810 },
      ]),
      faults: [],
    });
  });

  it('takes nothing away by an empty cell, and passes over what says the same otherwise', () => {
    expect(said('Cable,Start mark (ft),Test,Remark\nA1,,FAIL,\n').records).toEqual([]);
    expect(said('Cable,Test\nA1,x\n').records).toEqual([]);
    expect(said('Cable,Test\nA1,pass\n').records).toEqual([
      { jack: 'J1', fields: { test: 'pass' } },
    ]);
  });

  it('brings any record back that was given out, to the tenth of a foot or the centimetre', () => {
    const length = fc.option(fc.nat({ max: 33_000_000 }), { nil: null });
    const text = fc.string({ unit: 'grapheme', maxLength: 40 }).map((words) => words.trim());
    const record = fc.record({
      ...{ start: length, end: length, length: length.filter((mm) => mm !== 0) },
      port: fc.option(fc.integer({ min: 1, max: 10_000 }), { nil: null }),
      test: fc.constantFrom('pass' as const, 'fail' as const, null),
      ...{ by: text, remark: text },
      on: fc.constantFrom('', DAY),
      at: fc.constant(null),
    });
    const bare = rows.map((row) => ({ ...row, built: null, asBuilt: null }));
    fc.assert(
      fc.property(record, fc.constantFrom('ft' as const, 'm' as const), (given, units) => {
        const asBuilt = builtLength(given);
        const port = given.port ?? bare[0]!.port;
        const there = [{ ...bare[0]!, built: given, asBuilt, port }, ...bare.slice(1)];
        const list = cableScheduleCsv(there, units);
        expect(readSchedule(list, there, units)).toEqual({ records: [], cells: [], faults: [] });
        const { records, faults } = readSchedule(list, bare, units);
        expect(faults).toEqual([]);
        const fields = { ...NOT_BUILT, ...records[0]?.fields };
        for (const name of ['test', 'by', 'on', 'remark'] as const)
          expect(fields[name]).toBe(given[name]);
        expect(fields.port ?? bare[0]!.port).toBe(port);
        const step = units === 'ft' ? FOOT / 10 : 10;
        for (const [back, mm] of [
          [fields.start, given.start],
          [fields.end, given.end],
          [fields.length, asBuilt],
        ] as const)
          if (mm === null) expect(back).toBeNull();
          else expect(Math.abs(back! - mm)).toBeLessThanOrEqual(step / 2 + 1);
      }),
      { seed: 31, numRuns: 500 },
    );
  });

  it('names what it does not understand line by line, and takes all else', () => {
    const text =
      'Cable,Start mark (ft),Test,Colour\nA1,12-Jun,p,blue\nA9,1,p,\nA2,5,maybe,\nA2,6,p,\n';
    const { records, faults } = said(text);
    expect(records).toEqual([
      { jack: 'J1', fields: { test: 'pass' } },
      { jack: 'J2', fields: { start: 5 * FOOT } },
    ]);
    expect(faults).toEqual([
      'The column Colour is not known, and not read.',
      'Line 2: Start mark (ft) of A1 is not understood: “12-Jun”.',
      'Line 3: no jack of this job is labelled A9.',
      'Line 4: Test of A2 is not understood: “maybe”.',
      'Line 5: A2 stands in the list twice; the first is taken.',
    ]);
  });

  it('says so of another file', () => {
    expect(said('Item,Price\nJack,5\n').faults).toEqual([
      expect.stringContaining('no column is headed Cable'),
    ]);
    expect(said('').records).toEqual([]);
  });
});
