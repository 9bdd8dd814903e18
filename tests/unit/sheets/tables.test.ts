import { describe, expect, it } from 'vitest';
import { formatMoney, formatTotal, INCH, parseLength } from '../../../src/base/units.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { printJob, sheetList } from '../../../src/sheets/print-job.ts';
import type { Page, PaperName } from '../../../src/sheets/sheet.ts';
import { inkBoxes, overlapping, textsOf } from '../drawing/boxes.ts';
import { NOTHING, planOf } from '../drawing/small-plan.ts';
import { step } from '../plan/steps.ts';
import { samplePlan, surveyOf } from './sample-site.ts';
import { twoLevels } from './two-levels.ts';

const plan = samplePlan();
const survey = surveyOf(plan);
const print = (sheet: string, paper: PaperName = 'letter'): Page[] =>
  printJob(plan, survey, kinds, { paper, sheets: [sheet], printed: '1 March 2026' });

const texts = (page: Page): Extract<Mark, { op: 'text' }>[] =>
  page.marks.filter((mark) => mark.op === 'text');

/** The lengths of every line of a schedule from left to right, in its smallest printed step: an inch, a centimetre. */
function lengthsByLine(page: Page, units: 'ft' | 'm'): number[][] {
  const lines = new Map<number, { x: number; mm: number }[]>();
  for (const { text, at } of texts(page)) {
    const mm = parseLength(text.replace(/ ft$/, "'").replace(/,/g, ''), units);
    if (mm === null || !/['"m]|ft$/.test(text)) continue;
    const y = Math.round(at[1] * 10);
    lines.set(y, [...(lines.get(y) ?? []), { x: at[0], mm }]);
  }
  const stepSize = units === 'ft' ? INCH : 10;
  return [...lines.values()]
    .filter((line) => line.length >= 5)
    .map((line) => line.sort((a, b) => a.x - b.x).map(({ mm }) => Math.round(mm / stepSize)));
}

describe('cable schedule', () => {
  it('has one line for each cable, in the order of the labels, over all its pages', () => {
    const labels = print('schedule').flatMap((page) =>
      texts(page)
        .filter((text) => text.face === 'mono')
        .map((text) => text.text),
    );
    const all = [...plan.tables.jacks.values()].map((jack) => jack.label);
    expect([...labels].sort()).toEqual([...all].sort());
    expect(labels.indexOf('A2')).toBeLessThan(labels.indexOf('A9'));
    expect(labels.indexOf('A9')).toBeLessThan(labels.indexOf('B1'));
    expect(labels.indexOf('B9')).toBeLessThan(labels.indexOf('B10'));
  });

  it.each(['ft', 'm'] as const)('in %s adds up by hand, line by line and in its sums', (units) => {
    const measured = step(plan, 'edit', { table: 'job', id: 'job', fields: { units } });
    const pages = printJob(measured, survey, kinds, {
      paper: 'letter',
      sheets: ['schedule'],
      printed: '1 March 2026',
    });
    const sums = pages.flatMap((page) => lengthsByLine(page, units));
    expect(sums.length).toBe(survey.runs.length + 1);
    for (const [across, vertical, slack, cable] of sums)
      expect(across! + vertical! + slack!).toBe(cable);
  });

  it('repeats its header on every page', () => {
    const pages = print('schedule');
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages)
      for (const title of ['Device', 'Across', 'Start mark', 'End mark', 'OK'])
        expect(textsOf(page.marks)).toContain(title);
  });

  it('ends with the sums of the survey, once', () => {
    const pages = print('schedule');
    const words = pages.flatMap((page) => textsOf(page.marks));
    const last = textsOf(pages.at(-1)!.marks);
    expect(words.filter((text) => text === `Cables: ${survey.runs.length}`).length).toBe(1);
    expect(last).toContain(`Cables: ${survey.runs.length}`);
    expect(last).toContain(formatTotal(survey.totals.cable, 'ft'));
    expect(last).toContain(formatTotal(survey.totals.order, 'ft'));
    expect(last).toContain(String(survey.boxPlan.boxes.length));
  });

  it.each(['letter', 'tabloid', 'a4', 'a3'] as const)('on %s keeps its columns apart', (paper) => {
    for (const page of print('schedule', paper))
      expect(overlapping(inkBoxes(texts(page)))).toEqual([]);
  });

  it('leaves room to write on every line', () => {
    const [page] = print('schedule');
    const cells = page!.marks.filter(
      (mark) => mark.op === 'line' && mark.closed && mark.style.stroke === 'soft',
    );
    const lines = texts(page!).filter((text) => text.face === 'mono').length;
    expect(cells.length).toBe(3 * lines);
    for (const box of inkBoxes(cells)) {
      expect(box.x1 - box.x0).toBeGreaterThan(6);
      expect(box.y1 - box.y0).toBeGreaterThan(3.5);
    }
  });

  it('says aloud which cable is too long or has no way', () => {
    const [first, second, ...rest] = survey.runs;
    const runs = [
      { ...first!, status: 'over' as const },
      { ...second!, status: 'unroutable' as const, cable: 0, order: 0, across: 0 },
      ...rest,
    ];
    const pages = printJob(plan, { ...survey, runs }, kinds, {
      paper: 'letter',
      sheets: ['schedule'],
      printed: '',
    });
    const warned = pages.flatMap((page) => texts(page).filter((text) => text.ink === 'warn'));
    const words = warned.map((text) => text.text).join(' ');
    expect(words).toContain(first!.label);
    expect(words).toContain('TOO LONG');
    expect(words).toContain('NO WAY');
    // Lengths that nobody knows are no lengths of nothing.
    expect(warned.filter((text) => text.text === '-').length).toBe(5);
  });

  it('is not printed for a job without cables', () => {
    const pages = printJob(planOf({}), NOTHING, kinds, { paper: 'a4', printed: '' });
    expect(pages).toEqual([]);
  });
});

describe('the as-built record', () => {
  const [first, second] = [...plan.tables.jacks.values()];
  const recorded = step(plan, 'record', {
    records: [
      {
        jack: first!.id,
        fields: { start: 304_800, end: 335_280, test: 'pass', by: 'KL', on: '2026-03-01' },
      },
      { jack: second!.id, fields: { test: 'fail', remark: 'open pair' } },
    ],
  });
  const sheet = (id: string, paper: PaperName = 'letter', of = recorded): Page[] =>
    printJob(of, surveyOf(of), kinds, { paper, sheets: [id], printed: '' });
  const words = (pages: readonly Page[]): string[] => pages.flatMap((page) => textsOf(page.marks));

  it('is no sheet before anything is recorded', () => {
    expect(print('record')).toEqual([]);
  });

  it('says what was built beside what was planned, and counts what is recorded', () => {
    const said = words(sheet('record'));
    for (const text of ['As-built record', 'Planned', "1000'", "1100'", "100'", 'pass', 'FAIL'])
      expect(said).toContain(text);
    for (const text of ['KL', '2026-03-01', 'open pair']) expect(said).toContain(text);
    expect(said).toContain(`Recorded: 2 of ${plan.tables.jacks.size}`);
    expect(said.join(' ')).toContain('1 passed their test, 1 failed, and 0 are not tested');
  });

  it('warns of the cable that failed, and of no other', () => {
    const warned = sheet('record').flatMap((page) => texts(page).filter((t) => t.ink === 'warn'));
    expect(warned.map((text) => text.text)).toContain(second!.label);
    expect(warned.map((text) => text.text)).not.toContain(first!.label);
  });

  it('stars a length that was typed and that its marks gainsay, and says what they say', () => {
    const typed = step(recorded, 'record', {
      records: [{ jack: first!.id, fields: { length: 45_720 } }],
    });
    const said = words(sheet('record', 'letter', typed));
    expect(said).toContain("150' *");
    expect(said.join(' ')).toContain(`these say ${first!.label} 100'.`);
    expect(words(sheet('record')).join(' ')).not.toContain('*');
  });

  it('fills the frames of the schedule, which says that it is the plan', () => {
    const said = words(sheet('schedule'));
    expect(said).toContain('Cable schedule, as planned');
    for (const text of ["1000'", "1100'", 'pass', 'FAIL']) expect(said).toContain(text);
  });

  it.each(['letter', 'tabloid', 'a4', 'a3'] as const)('on %s keeps its columns apart', (paper) => {
    for (const page of sheet('record', paper))
      expect(overlapping(inkBoxes(texts(page)))).toEqual([]);
  });
});

describe('the cable schedule of a job on two levels', () => {
  const two = twoLevels();
  const schedule = (of: Plan, paper: PaperName = 'letter'): Page[] =>
    printJob(of, surveyOf(of), kinds, { paper, sheets: ['schedule'], printed: '' });
  const words = (of: Plan): string[] => schedule(of).flatMap((page) => textsOf(page.marks));

  it('says the level of each jack, the riser by name and what of the length lies in it', () => {
    const said = words(two);
    expect(said).toContain('Level');
    expect(said).toContain('In riser');
    expect(said.filter((text) => text === 'Mezzanine').length).toBe(4);
    expect(said.filter((text) => text === 'Ground level').length).toBe(2);
    expect(said).toContain('Office > Riser > Dining');
    // Four cables of 3962 mm.
    expect(said).toContain("13'");
    expect(said).toContain(formatTotal(4 * 3962, 'ft'));
  });

  it('marks the cable that is made to pass a pin', () => {
    expect(words(two).filter((text) => text.endsWith('(pin: P1)')).length).toBe(1);
  });

  it('leaves these columns away where they would tell nothing', () => {
    const said = print('schedule').flatMap((page) => textsOf(page.marks));
    for (const title of ['Level', 'In riser', 'Closet, port']) expect(said).not.toContain(title);
  });

  it('has the closet with the port as soon as there are two, also of one name', () => {
    const placed = step(two, 'place-closet', { level: 'L2', at: [1000, 7000] });
    const same = step(placed, 'edit', {
      table: 'closets',
      id: 'C2',
      fields: { name: placed.tables.closets.get('C1')!.name },
    });
    const said = words(same);
    expect(said).toContain('Closet, port');
    expect(said).toContain('Network closet C1, 1');
    expect(said).toContain('Network closet C2, 1');
  });

  it('names the cables whose slack does not follow the line below the table', () => {
    const own = (of: Plan): string | undefined =>
      words(of).find((text) => text.startsWith('By allowances of their own'));
    expect(own(two)).toBeUndefined();
    const kind = step(two, 'allow-kind', { kind: 'access-point', fields: { fieldLoop: 3048 } });
    const jack = step(kind, 'allow-jacks', { jacks: ['J1'], fields: { wastePercent: 15 } });
    expect(own(jack)).toBe('By allowances of their own, as their columns say: A1, M4.');
  });

  it.each(['letter', 'tabloid', 'a4', 'a3'] as const)('on %s keeps its columns apart', (paper) => {
    const many = step(two, 'place-closet', { level: 'L2', at: [1000, 7000] });
    for (const page of schedule(many, paper))
      expect(overlapping(inkBoxes(texts(page)))).toEqual([]);
  });
});

describe('materials and price', () => {
  it('lists every line with its amount', () => {
    const words = print('quote').flatMap((page) => textsOf(page.marks));
    for (const line of survey.price.lines) {
      expect(words).toContain(line.label.text);
      expect(words).toContain(formatMoney(line.totalCents));
    }
  });

  it('gives each group the sum of its lines, and the groups of material the sum of material', () => {
    const rows = new Map<number, string[]>();
    for (const page of print('quote'))
      for (const text of texts(page).filter((t) => t.bold))
        rows.set(Math.round(text.at[1] * 10), [
          ...(rows.get(Math.round(text.at[1] * 10)) ?? []),
          text.text,
        ]);
    const amount = (name: string): number => {
      const row = [...rows.values()].find((cells) => cells[0] === name)!;
      return Math.round(Number(row[1]!.replace(/[$,]/g, '')) * 100);
    };
    const groups = ['Cable', 'Outlets', 'Closet', 'Pathways', 'Holes and firestopping', 'Cords'];
    const sum = groups.reduce((total, group) => total + amount(group), 0);
    expect(sum).toBe(amount('Material'));
    expect(amount('Material')).toBe(survey.price.materialCents);
    expect(amount('Mark-up, 20 %')).toBe(survey.price.markupCents);
    expect(amount('Total')).toBe(survey.price.totalCents);
    expect(amount('Material') + amount('Labour') + amount('Mark-up, 20 %')).toBe(amount('Total'));
  });

  it('marks what is included and excluded as words to be checked', () => {
    const words = print('quote')
      .flatMap((page) => textsOf(page.marks))
      .join(' ');
    expect(words).toMatch(/Included \(default words, check before sending\)/);
    expect(words).toMatch(/Not included \(default words, check before sending\)/);
    expect(words).toContain('All prices here are made up until somebody types the real ones.');
    expect(words).not.toContain('as typed in');
  });
});

describe('a printed set', () => {
  it('is numbered through, whichever sheets are chosen', () => {
    const pages = printJob(plan, survey, kinds, { paper: 'a4', printed: '1 March 2026' });
    expect(pages.length).toBeGreaterThan(3);
    pages.forEach((page, i) => {
      expect(textsOf(page.marks)).toContain(`${i + 1} of ${pages.length}`);
    });
  });

  it('has sheets with ids and titles of their own', () => {
    const list = sheetList();
    expect(list.map(({ id }) => id)).toEqual(['plan', 'schedule', 'record', 'quote']);
    expect(new Set(list.map(({ title }) => title.text)).size).toBe(list.length);
  });

  it('is the same for the same input', () => {
    const again = { paper: 'tabloid', printed: '1 March 2026' } as const;
    expect(printJob(plan, survey, kinds, again)).toEqual(printJob(plan, survey, kinds, again));
  });
});
