import { describe, expect, it } from 'vitest';
import { msg } from '../../../src/base/message.ts';
import { NOT_BUILT } from '../../../src/plan/built.ts';
import { portMap } from '../../../src/results/ports.ts';
import { PRICE_GROUPS } from '../../../src/results/price-groups.ts';
import { boxPlan } from '../../../src/takeoff/box-plan.ts';
import {
  cableSchedule,
  cableScheduleCsv,
  pathInWords,
} from '../../../src/takeoff/cable-schedule.ts';
import { toCsv } from '../../../src/takeoff/csv.ts';
import { takeoff } from '../../../src/takeoff/index.ts';
import { materialListCsv } from '../../../src/takeoff/material-list.ts';
import { testKinds } from '../rules/test-kinds.ts';
import { makeRun, noWay, planWith, riser } from './make-run.ts';

describe('a CSV file', () => {
  it('has commas, a CRLF after every line, and quotes where a cell needs them (RFC 4180)', () => {
    const rows = [
      ['a', 'b,c', 'say "so"', 'two\nlines'],
      [' edge', '', null, 1.5],
    ];
    expect(toCsv(rows)).toBe('a,"b,c","say ""so""","two\nlines"\r\n" edge",,,1.5\r\n');
  });

  it.each(['=1+1', '+1', '-1', '@sum', '\t=1', '\r=1'])(
    'makes %j harmless for spreadsheets',
    (cell) => {
      const text = toCsv([[cell]]).replaceAll('"', '');
      expect(text.startsWith("'")).toBe(true);
      expect(text).toContain(cell);
    },
  );

  it('leaves numbers alone, negative ones as well', () => {
    expect(toCsv([[-5, 0]])).toBe('-5,0\r\n');
  });
});

describe('the port map', () => {
  it('leaves recorded ports as they are, and fills those that are left', () => {
    const runs = ['A1', 'A2', 'A3', 'A4'].map((label) => makeRun({ label }));
    const built = new Map([
      ['J-A1', 2],
      ['J-A3', 24],
    ]);
    const uses = portMap(runs, built).get('C1')!;
    expect(uses.map(({ label, port }) => `${label} ${port}`)).toEqual([
      ...['A1 2', 'A2 1', 'A3 24', 'A4 3'],
    ]);
  });

  it('numbers the ports of each closet from 1 in the natural order of the labels', () => {
    const runs = [
      makeRun({ label: 'A10' }),
      makeRun({ label: 'B1', closet: 'C2' }),
      makeRun({ label: 'A2' }),
      noWay({ label: 'A3' }),
      noWay({ label: 'A1', closet: null }),
    ];
    const ports = Object.fromEntries(
      [...portMap(runs)].map(([closet, uses]) => [closet, uses.map((u) => [u.port, u.label])]),
    );
    expect(ports).toEqual({
      C1: [
        [1, 'A2'],
        [2, 'A3'],
        [3, 'A10'],
      ],
      C2: [[1, 'B1']],
    });
  });
});

const plan = planWith({
  closets: { C1: { level: 'L1', name: 'Closet "N"', at: [0, 0] } },
  zones: {
    Z1: {
      level: 'L1',
      name: 'Bar',
      outline: [
        [0, 0],
        [9000, 0],
        [9000, 9000],
        [0, 9000],
      ],
    },
  },
  pathways: {
    P1: {
      level: 'L1',
      points: [
        [0, 0],
        [9000, 0],
      ],
    },
  },
  devices: {
    D1: { level: 'L1', kind: 'station', at: [1000, 1000] },
    D2: { level: 'L1', kind: 'printer', name: '=Bar printer', at: [1000, 1000], host: 'D1' },
  },
  outlets: {
    O1: { level: 'L1', at: [1000, 1000] },
    O2: { level: 'L1', at: [20_000, 0] },
  },
  jacks: {
    J1: { outlet: 'O1', label: 'A10', device: 'D1' },
    J2: { outlet: 'O2', label: 'A2', spare: true },
  },
});

const part = (kind: 'up' | 'across' | 'down', zone: string | null, pathway: string | null = null) =>
  ({ kind, length: 1000, zone, pathway }) as const;

const runs = [
  makeRun({
    ...{ label: 'A10', jack: 'J1', outlet: 'O1', device: 'D1', status: 'near' },
    ...{ across: 30_480, vertical: 3048, slack: 1524, path: 33_528, cable: 35_052, order: 38_735 },
    parts: [
      part('up', 'Z1'),
      part('across', 'Z1'),
      part('across', null, 'P1'),
      part('across', null),
      part('down', null),
      { kind: 'closet-loop', length: 3000, zone: null, pathway: null },
    ],
  }),
  noWay({ label: 'A2', jack: 'J2', outlet: 'O2', device: null }),
];

describe('the cable schedule', () => {
  const rows = cableSchedule(plan, testKinds, runs, boxPlan(runs, 304_800));

  it('has a row for each run in the order of the labels', () => {
    expect(rows.map((row) => row.label)).toEqual(['A2', 'A10']);
  });

  it('says where each cable comes from, where it goes, what it serves and how it lies', () => {
    expect(rows[1]).toEqual({
      ...{ jack: 'J1', label: 'A10', closetId: 'C1', closet: 'Closet "N"', port: 2 },
      ...{ room: 'Bar', outlet: 'O1' },
      ...{ device: 'Order station + =Bar printer', network: 'payment' },
      ...{ levelId: 'L1', level: 'Ground level' },
      path: 'up > Bar > hook line P1 > across > down',
      pin: '',
      ...{ across: 30_480, vertical: 3048, riser: 0, slack: 1524, cable: 35_052, order: 38_735 },
      ...{ channel: 38_100, limit: 90_000, status: 'near', box: 1 },
      ...{ built: null, asBuilt: null },
    });
  });

  it('leaves open what a run without a way does not have', () => {
    expect(rows[0]).toMatchObject({ device: 'spare', room: '', path: '', box: null, port: 1 });
  });

  it('is written in the units of the job and in mm', () => {
    const [header, first, second, end] = cableScheduleCsv(rows, 'ft').split('\r\n');
    expect(header).toContain('Across (ft),Vertical (ft),In riser (ft),Slack (ft),Cable (ft)');
    expect(first).toContain('no way to the closet');
    expect(second).toBe(
      'A10,"Closet ""N""",2,Bar,O1,Order station + =Bar printer,payment,Ground level,' +
        'up > Bar > hook line P1 > across > down,,100,10,0,5,115,127.1,125,295.3,' +
        '30480,3048,0,1524,35052,38735,38100,90000,near the limit,1,,,,,,,,',
    );
    expect(end).toBe('');
    expect(cableScheduleCsv(rows, 'm')).toContain(',30.48,3.05,0,1.52,35.05,38.74,38.1,90,');
  });

  it('holds what is recorded as built, the marks in the units of the job', () => {
    const built = {
      ...NOT_BUILT,
      ...{ start: 304_800, end: 335_280, port: 9, test: 'pass' as const },
      ...{ on: '2026-03-01', by: 'KL', remark: 'report 7' },
    };
    const row = { ...plan.tables.jacks.get('J1')!, built };
    const recorded = {
      tables: { ...plan.tables, jacks: new Map(plan.tables.jacks).set('J1', row) },
    };
    const boxes = boxPlan(runs, 304_800);
    const csv = cableScheduleCsv(cableSchedule(recorded, testKinds, runs, boxes), 'ft');
    const [, , line] = csv.split('\r\n');
    expect(line).toMatch(/^A10,"Closet ""N""",9,/);
    expect(line).toMatch(/,1000,1100,100,30480,pass,2026-03-01,KL,report 7$/);
  });

  it('has as many cells in every line as in its header', () => {
    const plain = rows.map((row) => ({ ...row, closet: 'N' }));
    const widths = cableScheduleCsv(plain, 'm')
      .trim()
      .split('\r\n')
      .map((line) => line.split(',').length);
    expect(new Set(widths).size).toBe(1);
  });

  it('puts neighbours of the same way together, whatever steps lie between', () => {
    const step = { kind: 'step', length: 300, zone: null, pathway: null } as const;
    const parts = [part('up', null), part('across', 'Z1'), step, part('across', 'Z1')];
    expect(pathInWords(plan, parts)).toBe('up > Bar');
  });

  it('calls a room that nobody named by its service area', () => {
    const zones = [...plan.tables.zones].map(([id, z]) => [id, { ...z, name: '' }] as const);
    const bare = { ...plan, tables: { ...plan.tables, zones: new Map(zones) } };
    expect(pathInWords(bare, [part('up', null), part('across', 'Z1')])).toBe('up > area A');
    const boxes = boxPlan(runs, 304_800);
    const inRoom = cableSchedule(plan, testKinds, runs, boxes).filter((row) => row.room !== '');
    const unnamed = cableSchedule(bare, testKinds, runs, boxes).filter((row) => row.room !== '');
    expect(inRoom.length).toBeGreaterThan(0);
    expect(unnamed.map((row) => row.room)).toEqual(inRoom.map(() => 'area A'));
  });
});

describe('the cable schedule of several levels', () => {
  const levels = planWith({
    levels: { L2: { name: 'Mezzanine', elevation: 3600 }, L3: { name: 'Roof', elevation: 7200 } },
    closets: {
      C1: { level: 'L1', name: 'Closet', at: [0, 0] },
      C2: { level: 'L2', name: 'Closet', at: [0, 0] },
    },
    risers: {
      R1: { level: 'L1', upper: 'L2', name: 'Shaft', at: [0, 0] },
      R2: { level: 'L2', upper: 'L3', name: '', at: [0, 0] },
    },
    pins: { N1: { level: 'L2', name: 'Beam', points: [[0, 0]] } },
    outlets: { O1: { level: 'L3', at: [0, 0] } },
    jacks: { J1: { outlet: 'O1', label: 'C1', pin: 'N1', spare: true } },
  });
  const run = makeRun({
    ...{ label: 'C1', jack: 'J1', outlet: 'O1', level: 'L3', device: null },
    segments: [
      riser('R2', [0, 0, 10_000], [0, 0, 6400], 'L3'),
      riser('R1', [0, 0, 6400], [0, 0, 2900], 'L2'),
    ],
    parts: [part('up', null), { ...part('across', null), kind: 'riser' }, part('down', null)],
  });
  const other = makeRun({ label: 'A1', closet: 'C2' });
  const rows = cableSchedule(levels, testKinds, [run, other], boxPlan([run, other], 304_800));

  it('says the level of each jack, its risers by name, their length and its pin', () => {
    expect(rows[1]).toMatchObject({
      level: 'Roof',
      path: 'up > riser R2 > Shaft > down',
      riser: 3600 + 3500,
      pin: 'Beam',
    });
    const csv = cableScheduleCsv(rows, 'm').split('\r\n');
    expect(csv[0]).toContain('Way,Pin,Across (m),Vertical (m),In riser (m)');
    expect(csv[2]).toContain('up > riser R2 > Shaft > down,Beam,20,0,7.1,');
  });

  it('tells closets of one name apart', () => {
    expect(rows.map((row) => row.closet)).toEqual(['Closet C2', 'Closet C1']);
    expect(rows.map((row) => row.closetId)).toEqual(['C2', 'C1']);
  });

  it('names the pin of a run that has no way past it', () => {
    const lost = noWay({ label: 'C1', jack: 'J1', outlet: 'O1', level: 'L3' });
    const [row] = cableSchedule(levels, testKinds, [lost], boxPlan([lost], 304_800));
    expect(row).toMatchObject({ pin: 'Beam', riser: 0 });
  });
});

describe('the material list', () => {
  const { price } = takeoff(plan, runs, []);

  it('lists every line and ends with the sums', () => {
    const lines = materialListCsv(price).trim().split('\r\n');
    expect(lines[0]).toBe('Group,Item,Quantity,Unit,Each ($),Total ($)');
    expect(lines[1]).toBe('Cable,"Cable, by the box",1,box,185.00,185.00');
    expect(lines.length).toBe(1 + price.lines.length + 5);
    expect(lines.at(-1)).toBe(`Sum,Total,,,,${(price.totalCents / 100).toFixed(2)}`);
  });

  it('calls its groups as the screen and the quote do', () => {
    const groups = materialListCsv(price)
      .split('\r\n')
      .slice(1)
      .map((line) => line.split(',')[0]);
    const words = price.lines.map((line) => PRICE_GROUPS[line.group].text);
    expect(groups.slice(0, words.length)).toEqual(words);
    expect(new Set(words).size).toBeGreaterThan(3);
  });

  it('cannot be turned into a formula by the name of a currency', () => {
    const odd = { ...price, currency: '=x', lines: [{ ...price.lines[0]!, label: msg('=1') }] };
    expect(materialListCsv(odd)).toContain("'=1");
  });
});
