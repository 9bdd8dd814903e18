import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, describe, expect, it } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { run } from '../../../src/cli/command.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { closetWords } from '../../../src/results/closet-words.ts';
import { closetStudy, createSurveyor } from '../../../src/survey/survey.ts';
import { step } from '../plan/steps.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'takeoff-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Said {
  readonly code: number;
  readonly out: string;
  readonly error: string;
}

async function takeoff(...args: string[]): Promise<Said> {
  let out = '';
  let error = '';
  const code = await run(args, {
    folder,
    now: new Date('2031-05-06T12:00:00Z'),
    out: (text) => {
      out += text;
    },
    error: (text) => {
      error += text;
    },
  });
  return { code, out, error };
}

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return name;
}

const sample = join(root, 'public/samples/restaurant.json');

/** The first worked number of the routing contract: a pole at (10, 1), the closet at (1, 8), tiles at 2.70 m. */
function worked(): Plan {
  const outline: [number, number][] = [
    [0, 0],
    [12_000, 0],
    [12_000, 9000],
    [0, 9000],
  ];
  let plan = step(emptyPlan(), 'edit', {
    table: 'settings',
    id: 'settings',
    fields: { outletSlack: 300, closetLoop: 3000 },
  });
  plan = step(plan, 'draw-zone', {
    level: 'L1',
    outline,
    look: { ceiling: { kind: 'tile', height: 2700 } },
  });
  plan = step(plan, 'place-closet', { level: 'L1', at: [1000, 8000] });
  plan = step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: [10_000, 1000] });
  return step(plan, 'edit', {
    table: 'outlets',
    id: 'O1',
    fields: { mount: 'pole', height: 450 },
  });
}

describe('the command line with --json', () => {
  it('prints one JSON object with the lengths that can be reckoned by hand', async () => {
    const { code, out, error } = await takeoff(file('worked.json', writePlan(worked())), '--json');
    expect([code, error]).toEqual([0, '']);
    const said = JSON.parse(out);
    // Up 2.40, across 9.00 + 7.00, down 1.35; slack 0.30 at the outlet and 3.00 at the closet.
    expect(said.runs).toEqual([
      {
        label: 'A1',
        device: 'D1',
        closet: 'C1',
        level: 'L1',
        across_mm: 16_000,
        vertical_mm: 3750,
        riser_mm: 0,
        slack_mm: 3300,
        path_mm: 19_750,
        cable_mm: 23_050,
        order_mm: 25_603,
        channel_mm: 26_098,
        limit_mm: 90_000,
        status: 'ok',
        crossings: [],
        points: expect.any(Array),
        risers: [],
        pin: null,
      },
    ]);
    expect(said.levels).toEqual([
      { id: 'L1', name: 'Ground level', elevation_mm: 0, jacks: 1, closets: 1 },
    ]);
    expect([said.risers, said.pins]).toEqual([[], []]);
    expect(said.runs[0].points[0]).toEqual([10_000, 1000, 450]);
    expect(said.runs[0].points.at(-1)).toEqual([1000, 8000, 1500]);
    expect(said.totals).toMatchObject({
      cable_mm: 23_050,
      order_mm: 25_603,
      jacks: 1,
      devices: 1,
      boxes: 1,
    });
  });

  it('says of the sample what the survey says', async () => {
    const said = JSON.parse((await takeoff(sample, '--json')).out);
    const opened = readPlan(readFileSync(sample, 'utf8'), new Set(kinds.keys()));
    if (!opened.ok) throw new Error('the sample cannot be read');
    const survey = createSurveyor(kinds)(opened.value.plan);
    expect(said.totals.price_cents).toBe(survey.price.totalCents);
    expect(said.totals.cable_mm).toBe(survey.runs.reduce((sum, r) => sum + r.cable, 0));
    expect(said.runs).toHaveLength(survey.runs.length);
    expect(said.findings).toHaveLength(survey.findings.length);
    for (const finding of said.findings) {
      expect(finding.subject).toMatch(/^[a-z]+\.[A-Z]\d+/);
      expect(finding.message).not.toMatch(/[{}]/);
    }
  });

  it('gives a run without a way its reason in the findings, and no lengths', async () => {
    const plan = step(worked(), 'delete', { refs: [{ table: 'closets', id: 'C1' }] });
    const said = JSON.parse((await takeoff(file('no-closet.json', writePlan(plan)), '--json')).out);
    expect(said.runs[0]).toMatchObject({ status: 'unroutable', cable_mm: 0, closet: null });
    expect(said.findings.map((f: { severity: string }) => f.severity)).toContain('error');
  });
});

/**
 * The worked number of the routing contract for two levels: closet at (1, 8) below, a pole at (10, 1) 3.60 m above it,
 * a riser at (3, 8). A second jack beside it is pinned to a detour.
 */
function twoLevels(): Plan {
  let plan = step(worked(), 'add-level', {
    from: 'L1',
    side: 'above',
    name: 'Mezzanine',
    elevation: 3600,
  });
  const outline: [number, number][] = [
    [0, 0],
    [12_000, 0],
    [12_000, 9000],
    [0, 9000],
  ];
  plan = step(plan, 'draw-zone', {
    level: 'L2',
    outline,
    look: { ceiling: { kind: 'tile', height: 2700 } },
  });
  plan = step(plan, 'place-riser', { level: 'L1', at: [3000, 8000], size: '1 in.' });
  plan = step(plan, 'place-device', { level: 'L2', kind: 'order-station', at: [10_000, 1000] });
  plan = step(plan, 'edit', {
    table: 'outlets',
    id: 'O2',
    fields: { mount: 'pole', height: 450, at: [10_000, 1000] },
  });
  return step(plan, 'pin-runs', { level: 'L1', points: [[1000, 1000]], jacks: ['J1'] });
}

describe('the command line on several levels', () => {
  it('prints in JSON what is on each level, what goes through each riser, and what pins cost', async () => {
    const { out } = await takeoff(file('two.json', writePlan(twoLevels())), '--json');
    const said = JSON.parse(out);
    expect(said.levels).toEqual([
      { id: 'L1', name: 'Ground level', elevation_mm: 0, jacks: 1, closets: 1 },
      { id: 'L2', name: 'Mezzanine', elevation_mm: 3600, jacks: 1, closets: 0 },
    ]);
    const [below, above] = said.runs;
    // Up 2.40, across 7 + 7, riser 3.60, across 2, down 1.35.
    expect(above).toMatchObject({
      ...{ across_mm: 16_000, riser_mm: 3600, vertical_mm: 2400 + 3600 + 1350, path_mm: 23_350 },
      ...{ risers: ['R1'], pin: null },
    });
    expect(said.risers).toEqual([
      { id: 'R1', name: 'Riser', level: 'L1', upper: 'L2', cables: [above.label] },
    ]);
    expect(below.pin).toEqual({ id: 'N1', longer_mm: 0, cost_mm: expect.any(Number) });
    expect(said.pins).toMatchObject([{ id: 'N1', cables: [below.label], longer_mm: 0 }]);
  });

  it('prints them for people, and the level of each jack', async () => {
    const plan = step(twoLevels(), 'move-point', {
      ref: { table: 'pins', id: 'N1' },
      index: 0,
      to: [11_000, 1000],
    });
    const { out } = await takeoff(file('detour.json', writePlan(plan)));
    const label = [...plan.tables.jacks.values()][1]!.label;
    expect(out).toContain('2 devices, 2 jacks, 1 closet, 2 levels');
    expect(out).toContain('Mezzanine: floor at 11\'-10", 1 jack, 0 closets');
    expect(out).toContain(`Riser, 1 in.: Ground level up to Mezzanine, 1 cable (${label})`);
    // A metre past the jack and back again.
    expect(out).toContain('P1: A1; 6\'-7" longer than their free ways, together');
    expect(out).toMatch(/ok +Mezzanine\n/);
  });

  it('says nothing of levels, risers and pins where there are none', async () => {
    const { out } = await takeoff(file('one.json', writePlan(worked())));
    expect(out).not.toMatch(/level|riser|pin/i);
  });
});

describe('the command line for people', () => {
  it('lists the runs by label, then totals, price and findings, in the units of the job', async () => {
    const { code, out } = await takeoff(file('worked.json', writePlan(worked())));
    expect(code).toBe(0);
    expect(out).toContain('1 device, 1 jack, 1 closet');
    expect(out).toMatch(/A1 +Order station A1 +52'-6" +12'-4" +10'-10" +75'-7" +84' +ok/);
    expect(out).toContain('Boxes of cable: 1');
    expect(out).toMatch(/Price +\$[\d,]+\.\d\d/);
  });

  it('says how far the record of what was built is, once it was begun', async () => {
    const plan = worked();
    const [jack] = [...plan.tables.jacks.keys()];
    const fields = { length: 24_000, test: 'pass' } as const;
    const built = step(plan, 'record', { records: [{ jack: jack!, fields }] });
    const before = await takeoff(file('planned.json', writePlan(plan)));
    const after = await takeoff(file('built.json', writePlan(built)));
    expect(before.out).not.toContain('As built');
    expect(after.out).toContain('As built: 1 of 1 recorded, 1 passed, 0 failed.');
  });

  it('takes a job in metres', async () => {
    const plan = step(worked(), 'edit', { table: 'job', id: 'job', fields: { units: 'm' } });
    const { out } = await takeoff(file('metres.json', writePlan(plan)));
    expect(out).toContain('23.05 m');
    expect(out).not.toContain("'");
  });

  it('says what to do with a plan that is still empty', async () => {
    const { code, out } = await takeoff(file('empty.json', writePlan(emptyPlan())));
    expect(code).toBe(0);
    expect(out).toContain('No jacks yet.');
  });

  it('says what one more closet would do where that is asked, and not otherwise', async () => {
    const read = readPlan(readFileSync(sample, 'utf8'), new Set(kinds.keys()));
    if (!read.ok) throw new Error('the sample cannot be read');
    const { plan } = read.value;
    const study = closetStudy(plan);
    const { out } = await takeoff(sample, '--closets');
    for (const words of closetWords(plan, study)) expect(out).toContain(renderMessage(words, 'ft'));
    expect((await takeoff(sample)).out).not.toContain('One more closet');
    const json = JSON.parse((await takeoff(sample, '--closets', '--json')).out);
    expect(json.one_more_closet).toMatchObject({
      places: study.places,
      best: { room: study.best!.zone, saves_mm: study.best!.saves, link_mm: study.best!.link },
    });
  });

  it('prints help, and the schema as JSON', async () => {
    expect((await takeoff('--help')).out).toContain('--paper');
    const schema = JSON.parse((await takeoff('--schema')).out);
    expect(schema.properties.walls).toBeDefined();
  });
});

describe('the command line with --out', () => {
  it('makes the folder and writes schedule, material list and plan', async () => {
    const { code, out } = await takeoff(sample, '--out', 'job/out', '--paper', 'tabloid');
    expect(code).toBe(0);
    const read = (name: string) => readFileSync(join(folder, 'job/out', name));
    expect(out).toContain(`Written: ${join(folder, 'job/out', 'plan.pdf')}`);
    expect(read('schedule.csv').toString().split('\r\n')).toHaveLength(49 + 2);
    expect(read('materials.csv').toString()).toContain('Total');
    const pdf = await PDFDocument.load(new Uint8Array(read('plan.pdf')));
    expect(
      pdf.getPages().map((page) => Math.round(Math.max(page.getWidth(), page.getHeight()))),
    ).toContain(17 * 72);
  });

  it('draws a page of a PDF under the plan, and says which backgrounds it cannot draw', async () => {
    const pdf = readFileSync(new URL('../../fixtures/plans/workshop-floor.pdf', import.meta.url));
    const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>');
    const [page, drawing] = ['a'.repeat(32), 'b'.repeat(32)];
    const background = (name: string, asset: string) => ({
      name,
      asset,
      width: 4200,
      height: 3000,
    });
    const plan = {
      format: 'dropwise-plan',
      version: 1,
      levels: { L1: {} },
      backgrounds: { B1: background('sheet', page), B2: background('sketch', drawing) },
      assets: {
        [page]: { type: 'application/pdf', data: pdf.toString('base64') },
        [drawing]: { type: 'image/svg+xml', data: svg.toString('base64') },
      },
    };
    writeFileSync(join(folder, 'under.json'), JSON.stringify(plan));
    const { code, out } = await takeoff('under.json', '--out', 'job/under');
    expect(code).toBe(0);
    expect(out).toContain('Not on the printed plan: sketch.');
    expect(out).not.toContain('plan: sheet');
    // The lines of the sheet are in it: a plan without them is a tenth of its size.
    expect(statSync(join(folder, 'job/under', 'plan.pdf')).size).toBeGreaterThan(120_000);
  });

  it('prints JSON alone beside it', async () => {
    const { out } = await takeoff(sample, '--out', 'job/json', '--json');
    expect(() => JSON.parse(out)).not.toThrow();
  });
});

describe('the command line says in one message what is wrong, and answers 1', () => {
  it.each([
    ['no plan', [], 'which plan file'],
    ['a file that is not there', ['nix.json'], 'no such file'],
    ['a folder', ['.'], 'a folder, not a file'],
    ['two plans', ['a.json', 'b.json'], 'one too many'],
    ['an unknown option', ['a.json', '--colour'], "Unknown option '--colour'"],
    ['an option without its value', ['a.json', '--out'], '--out'],
    ['an unknown paper', ['a.json', '--out', 'x', '--paper', 'napkin'], 'no paper "napkin"'],
    ['a paper without a folder', ['a.json', '--paper', 'a4'], '--out'],
    ['an empty folder name', ['a.json', '--out', ''], 'name of a folder'],
  ])('for %s', async (_, args, words) => {
    const { code, out, error } = await takeoff(...args);
    expect([code, out]).toEqual([1, '']);
    expect(error).toContain(words);
    expect(error.trim().split('\n')).toHaveLength(1);
  });

  it('for a file that is no plan, a plan with faults, and a folder that cannot be written to', async () => {
    expect((await takeoff(file('not.json', 'hello'))).error).toContain('is not a plan');
    const bad = JSON.stringify({ format: 'dropwise-plan', version: 1, walls: { W1: {}, W2: {} } });
    expect((await takeoff(file('bad.json', bad))).error).toMatch(/walls\.W1\.a .*3 more/);
    const { code, out, error } = await takeoff(sample, '--json', '--out', 'bad.json/x');
    expect([code, out]).toEqual([1, '']);
    expect(error).toContain('cannot be written to');
  });
});

describe('the command line as a program', () => {
  const call = (...args: string[]) =>
    promisify(execFile)(
      process.execPath,
      ['--import', 'tsx', resolve(root, 'src/cli/takeoff.ts'), ...args],
      {
        cwd: root,
      },
    );

  it('prints nothing but the JSON, on either stream', async () => {
    const { stdout, stderr } = await call('public/samples/cafe.json', '--json');
    expect(JSON.parse(stdout).totals.jacks).toBe(9);
    expect(stderr).toBe('');
  });

  it('ends with code 1 and the message on the error stream', async () => {
    await expect(call('nix.json')).rejects.toMatchObject({
      code: 1,
      stdout: '',
      stderr: expect.stringContaining('no such file'),
    });
  });
});
