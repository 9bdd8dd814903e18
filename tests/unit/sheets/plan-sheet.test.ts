import { describe, expect, it } from 'vitest';
import { FOOT } from '../../../src/base/units.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Plan, Ref } from '../../../src/plan/plan.ts';
import type { Survey } from '../../../src/results/types.ts';
import { MARGIN } from '../../../src/sheets/frame.ts';
import { legendItems } from '../../../src/sheets/legend.ts';
import { printJob } from '../../../src/sheets/print-job.ts';
import { PAPERS, type Page, type PaperName, type SheetContext } from '../../../src/sheets/sheet.ts';
import { hull, inkBoxes, overlapping, symbolBoxes, textsOf } from '../drawing/boxes.ts';
import { NOTHING, planOf, type Rows } from '../drawing/small-plan.ts';
import { step } from '../plan/steps.ts';
import { samplePlan, surveyOf } from './sample-site.ts';
import { twoLevels } from './two-levels.ts';

const PAPER_NAMES = Object.keys(PAPERS) as PaperName[];
const sample = samplePlan();
const sampleSurvey = surveyOf(sample);
const SHEETS = { sheets: ['plan'], printed: '1 March 2026' };

const planPages = (plan: Plan, survey: Survey = NOTHING, paper: PaperName = 'letter'): Page[] =>
  printJob(plan, survey, kinds, { ...SHEETS, paper });

type Group = Extract<Mark, { op: 'group' }>;
const groups = (page: Page): Group[] => page.marks.filter((mark) => mark.op === 'group');
const layers = (page: Page): Group[] => groups(page).filter((group) => group.layer !== undefined);

/** A bare room of a given size in feet, its walls without thickness to speak of. */
function room(width: number, height: number, job: object = {}): Plan {
  const [w, h] = [Math.round(width * FOOT), Math.round(height * FOOT)];
  const outline: [number, number][] = [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ];
  return planOf({
    job: { job },
    zones: { Z1: { level: 'L1', name: 'Hall', outline } },
  } as Rows);
}

const scaleOf = (page: Page): number => layers(page)[0]!.scale;

describe('plan sheet', () => {
  it.each(PAPER_NAMES)('on %s prints nothing outside the margins', (paper) => {
    for (const page of printJob(sample, sampleSurvey, kinds, { paper, printed: '1 March 2026' })) {
      const boxes = inkBoxes(page.marks);
      expect(boxes.length).toBeGreaterThan(50);
      for (const box of boxes) {
        expect(box.x0).toBeGreaterThanOrEqual(MARGIN - 1e-6);
        expect(box.y0).toBeGreaterThanOrEqual(MARGIN - 1e-6);
        expect(box.x1).toBeLessThanOrEqual(page.width - MARGIN + 1e-6);
        expect(box.y1).toBeLessThanOrEqual(page.height - MARGIN + 1e-6);
      }
    }
  });

  it.each(PAPER_NAMES)('on %s has the size of the paper, one way or the other', (paper) => {
    const { short, long } = PAPERS[paper];
    for (const page of planPages(sample, sampleSurvey, paper))
      expect([page.width, page.height].sort((a, b) => a - b)).toEqual([short, long]);
  });

  it.each(PAPER_NAMES)('on %s draws the building at the scale that it names', (paper) => {
    const [page] = planPages(sample, sampleSurvey, paper);
    const words = textsOf(page!.marks).find((text) => text.endsWith('= 1\'-0"'))!;
    const [over, under] = words.split('"')[0]!.split('/').map(Number);
    expect(1 / scaleOf(page!)).toBeCloseTo((12 * (under ?? 1)) / over!, 9);
    for (const layer of layers(page!)) expect(layer.scale).toBe(scaleOf(page!));
  });

  it('shows all jacks, devices and closets of the sample on every paper', () => {
    for (const paper of PAPER_NAMES) {
      const [page] = planPages(sample, sampleSurvey, paper);
      const words = textsOf(page!.marks);
      for (const { label } of sample.tables.jacks.values()) {
        const [main, more] = label.split('-');
        const shown = words.some(
          (text) => text === label || text.startsWith(`${main},`) || text.includes(`,-${more}`),
        );
        expect(shown, `${label} on ${paper}`).toBe(true);
      }
      expect(words.filter((text) => text === 'NC').length).toBe(2);
    }
  });

  it.each(PAPER_NAMES)('on %s keeps symbols, labels and counts apart', (paper) => {
    const [page] = planPages(sample, sampleSurvey, paper);
    const boxes = layers(page!)
      .filter(({ layer }) =>
        ['Jacks', 'Devices', 'Closets', 'Power outlets', 'Cable counts', 'Holes in walls'].includes(
          layer!,
        ),
      )
      .flatMap(({ marks, scale }) => symbolBoxes(marks, scale));
    expect(boxes.length).toBeGreaterThan(50);
    expect(overlapping(boxes)).toEqual([]);
  });

  it.each(PAPER_NAMES)(
    'on %s keeps every text of the legend, the notes and the title apart',
    (paper) => {
      const [page] = planPages(sample, sampleSurvey, paper);
      const words = page!.marks.filter((mark) => mark.op === 'text');
      expect(words.length).toBeGreaterThan(40);
      expect(overlapping(inkBoxes(words))).toEqual([]);
    },
  );

  it('takes the larger scale as soon as the building fits, and the smaller one a foot beyond', () => {
    const ratio = (feet: number): number => Math.round(1 / scaleOf(planPages(room(feet, 20))[0]!));
    let feet = 20;
    while (ratio(feet) === ratio(20)) feet++;
    expect([12, 16, 24, 32, 48, 64, 96]).toContain(ratio(feet - 1));
    expect(ratio(feet)).toBeGreaterThan(ratio(feet - 1));
  });

  it('turns the paper the way that gives the larger scale', () => {
    const [wide] = planPages(room(100, 24));
    const [tall] = planPages(room(24, 100));
    expect(wide!.width).toBeGreaterThan(wide!.height);
    expect(scaleOf(wide!)).toBeGreaterThanOrEqual(1 / 192);
    expect(scaleOf(tall!)).toBeGreaterThanOrEqual(1 / 192);
  });

  it('says so when no standard scale fits, and draws all of it just the same', () => {
    const [page] = planPages(room(2000, 1500));
    expect(textsOf(page!.marks)).toContain('None: use the bar');
    const boxes = inkBoxes(layers(page!));
    const drawn = hull(
      boxes.flatMap((b): [number, number][] => [
        [b.x0, b.y0],
        [b.x1, b.y1],
      ]),
    );
    expect((drawn.x1 - drawn.x0) / (drawn.y1 - drawn.y0)).toBeCloseTo(2000 / 1500, 1);
  });

  it('has a scale bar as long as its real length at the scale of the drawing', () => {
    for (const units of ['ft', 'm'] as const) {
      const [page] = planPages(room(50, 40, { units }));
      const square = groups(page!).find((group) =>
        textsOf(group.marks).some((t) => t.startsWith('Measure me')),
      )!;
      const bar = square.marks.find((mark) => mark.op === 'group')!;
      if (bar.op !== 'group') throw new Error('the bar is a group');
      const label = textsOf(bar.marks).at(-1)!;
      const real = Number.parseFloat(label) * (units === 'ft' ? FOOT : 1000);
      const drawn = hull(bar.marks.flatMap((mark) => (mark.op === 'line' ? [...mark.points] : [])));
      expect(label.endsWith(units)).toBe(true);
      expect(drawn.x1 - drawn.x0).toBeCloseTo(real * scaleOf(page!), 6);
    }
  });

  it('has a check square of 2 in., or 50 mm in a metric job', () => {
    const side = (units: 'ft' | 'm'): number => {
      const [page] = planPages(room(50, 40, { units }));
      const square = groups(page!).find((group) =>
        textsOf(group.marks).some((t) => t.startsWith('Measure me')),
      )!;
      const frame = square.marks[0]!;
      if (frame.op !== 'line') throw new Error('the square is a line');
      const box = hull(frame.points);
      expect(box.x1 - box.x0).toBe(box.y1 - box.y0);
      return (box.x1 - box.x0) * square.scale;
    };
    expect(side('ft')).toBeCloseTo(50.8, 9);
    expect(side('m')).toBeCloseTo(50, 9);
  });

  it('has a title block with job, people, revision, date, scale and the number of the sheet', () => {
    const plan = room(50, 40, {
      name: 'Corner cafe',
      address: '12 Sample Lane',
      client: 'The owner',
      preparedBy: 'The installer',
      revision: 'C',
    });
    const words = textsOf(planPages(plan)[0]!.marks);
    for (const text of [
      'Corner cafe',
      '12 Sample Lane',
      'The owner',
      'The installer',
      'C',
      '1 March 2026',
      '1 of 1',
    ])
      expect(words).toContain(text);
    expect(words).toContain('Cabling plan, Ground level');
  });

  it('has a page for each level with anything on it', () => {
    const outline: [number, number][] = [
      [0, 0],
      [9000, 0],
      [9000, 9000],
    ];
    const plan = planOf({
      levels: { L2: { name: 'Roof', elevation: 4000 }, L3: { name: 'Empty', elevation: 8000 } },
      zones: { Z1: { level: 'L1', outline }, Z2: { level: 'L2', outline } },
    });
    const pages = planPages(plan);
    expect(pages.map(({ title }) => title)).toEqual([
      'Untitled job: Cabling plan, Ground level',
      'Untitled job: Cabling plan, Roof',
    ]);
    expect(textsOf(pages[1]!.marks)).toContain('2 of 2');
    expect(planPages(planOf({}))).toEqual([]);
  });

  it.each(['ft', 'm'] as const)(
    'keeps the symbols of its legend in their column in %s',
    (units) => {
      const { tables } = sample;
      const job = new Map([...tables.job].map(([id, row]) => [id, { ...row, units }] as const));
      const plan = { ...sample, tables: { ...tables, job } };
      const context = { plan, survey: sampleSurvey, kinds, paper: 'letter', measure: fontMeasure };
      const items = legendItems({ ...context, printed: '' } as SheetContext, 'L1');
      const ceiling = items.find((item) => item.words.startsWith('Ceiling and its height'))!;
      for (const box of inkBoxes(ceiling.marks)) {
        expect(box.x1 - box.x0).toBeLessThan(9);
        expect(Math.max(-box.y0, box.y1)).toBeLessThan(2.1);
      }
    },
  );

  it('lists in its legend what is on the level, and nothing else', () => {
    const legend = (rows: Rows): string => textsOf(planPages(planOf(rows))[0]!.marks).join(' | ');
    const outline: [number, number][] = [
      [0, 0],
      [9000, 0],
      [9000, 9000],
    ];
    const few = legend({
      zones: { Z1: { level: 'L1', outline } },
      devices: { D1: { level: 'L1', kind: 'kiosk', at: [5000, 2000] } },
    });
    expect(few).toContain('Kiosk (1)');
    for (const absent of [
      'Order station',
      'tray',
      'Fire-rated',
      'Keep out',
      'Power outlet',
      'HARD',
    ])
      expect(few).not.toContain(absent);
    const more = legend({
      zones: { Z1: { level: 'L1', outline, ceiling: { kind: 'hard', height: 2700 } } },
      walls: { W1: { level: 'L1', a: [0, 0], b: [9000, 0], rated: true } },
      pathways: {
        P1: {
          level: 'L1',
          kind: 'tray',
          points: [
            [100, 100],
            [5000, 100],
          ],
        },
      },
      powers: { E1: { level: 'L1', at: [5000, 2000] } },
      keepouts: { K1: { level: 'L1', outline } },
    });
    for (const present of [
      'Cable tray',
      'Fire-rated wall',
      'Keep out',
      'Power outlet',
      'HARD closed',
    ])
      expect(more).toContain(present);
    expect(more).not.toContain('Kiosk');
  });

  it('carries the usual cautions', () => {
    const words = textsOf(planPages(room(50, 40))[0]!.marks).join(' ');
    for (const caution of [
      'local code',
      'Ladders',
      'licensed electrician',
      'asbestos',
      'listed firestop',
    ])
      expect(words).toContain(caution);
  });

  it('tells the crew what stood open when it was printed', () => {
    const finding = {
      rule: 'power-reach',
      subjects: [],
      at: { level: 'L1', point: [1000, 1000] as const },
      message: { text: 'The kiosk has no power outlet.', params: {} },
      remedy: { text: '', params: {} },
      source: '',
      fix: null,
    };
    const survey = {
      ...NOTHING,
      findings: [
        { ...finding, severity: 'error' as const },
        { ...finding, severity: 'note' as const, message: { text: 'Only a note.', params: {} } },
      ],
    };
    const words = textsOf(planPages(room(50, 40), survey)[0]!.marks).join(' ');
    expect(words).toContain('Open checks when printed: 1 to mend, 0 to look at');
    expect(words).toContain('The kiosk has no power outlet.');
    expect(words).toContain('Open check, to mend first');
    expect(words).not.toContain('Only a note');
  });

  it('shows a picture that nobody has traced, and leaves its margins away once the rooms are drawn', () => {
    const picture = {
      level: 'L1',
      asset: 'b'.repeat(16),
      width: 4000,
      height: 3000,
      mmPerPixel: 20,
    };
    const bare = planPages(planOf({ backgrounds: { B1: picture } }))[0]!;
    const outline: [number, number][] = [
      [10_000, 10_000],
      [60_000, 10_000],
      [60_000, 50_000],
      [10_000, 50_000],
    ];
    const traced = planPages(
      planOf({ backgrounds: { B1: picture }, zones: { Z1: { level: 'L1', outline } } }),
    )[0]!;
    expect(scaleOf(traced)).toBeGreaterThan(scaleOf(bare));
  });

  describe('on two levels', () => {
    const two = twoLevels();
    const survey = surveyOf(two);
    const [below, above] = planPages(two, survey);
    const said = (page: Page | undefined): string => textsOf(page!.marks).join(' | ');

    it('says at a riser on each level where it leads and how many cables go by it', () => {
      expect(said(below)).toContain('up to Mezzanine, 4 cables');
      expect(said(above)).toContain('down to Ground level, 4 cables');
      expect(said(below)).not.toContain('down to');
      expect(said(above)).not.toContain('up to');
    });

    it('draws on each the jacks and devices that stand there, and no others', () => {
      const labels = (page: Page | undefined) =>
        textsOf(page!.marks).filter((text) => /^[AM]\d$/.test(text));
      expect(labels(below).sort()).toEqual(['A1', 'A2']);
      expect(labels(above).sort()).toEqual(['M1', 'M2', 'M3', 'M4']);
    });

    it('draws on each the cables that lie there, also of runs that go on to the other', () => {
      // A cable that comes back from a pin on its own way lies there twice and is drawn once: leave it free.
      const { runs, ways: drawn } = surveyOf(step(two, 'leave-free', { jacks: ['J3'] }));
      const flat = (level: string): number =>
        runs
          .flatMap((run) => run.segments)
          .filter((segment) => segment.level === level && segment.kind === 'across')
          .reduce((sum, segment) => sum + segment.length, 0);
      // Every line on paper, times the cables that its ways carry, comes to what lies flat on the level.
      for (const level of ['L1', 'L2']) {
        const ways = drawn.filter((w) => w.level === level);
        const carried = ways.reduce(
          (sum, { from, to, jacks }) =>
            sum + Math.hypot(to[0] - from[0], to[1] - from[1]) * jacks.length,
          0,
        );
        expect(flat(level)).toBeGreaterThan(5000);
        expect(carried).toBeCloseTo(flat(level), -1);
      }
      const fromAbove = runs.filter((run) => run.level === 'L2');
      for (const run of fromAbove)
        expect(new Set(run.segments.map((segment) => segment.level))).toEqual(
          new Set(['L1', 'L2']),
        );
    });

    it('explains risers and pins in the legend of the level where they are', () => {
      const legend = (page: Page | undefined) => textsOf(page!.marks).join(' ');
      expect(legend(below)).toContain('Riser, up to the level named');
      expect(legend(below)).not.toContain('Runs are made to pass here');
      expect(legend(above)).toContain('Riser, down to the level named');
      expect(legend(above)).toContain('Runs are made to pass here');
      expect(legend(planPages(sample, sampleSurvey)[0])).not.toMatch(/Riser|Runs are made/);
    });

    it('names pins, as the schedule does, as soon as there are two to tell apart', () => {
      const more = step(two, 'pin-runs', { level: 'L2', points: [[3000, 6000]], jacks: ['J4'] });
      const [, both] = planPages(more, surveyOf(more));
      expect(textsOf(both!.marks)).toEqual(expect.arrayContaining(['P1', 'P2']));
      expect(textsOf(above!.marks)).not.toContain('P1');
    });

    it('tells the crew of a level what is open on it, and of the job what is open anywhere', () => {
      const open = (text: string, subjects: readonly Ref[]) => ({
        ...{ rule: 'x', severity: 'error' as const, subjects, at: null, source: '', fix: null },
        message: { text, params: {} },
        remedy: { text: '', params: {} },
      });
      const findings = [
        open('Mezzanine is cut off.', [{ table: 'levels', id: 'L2' }]),
        open('No closet yet.', []),
      ];
      const [first, second] = planPages(two, { ...survey, findings });
      expect(said(first)).not.toContain('Mezzanine is cut off.');
      expect(said(second)).toContain('Mezzanine is cut off.');
      for (const page of [first, second]) expect(said(page)).toContain('No closet yet.');
      // Of many that are alike the first speaks for all, so that what comes after them is read as well.
      const alike = ['A', 'B', 'C', 'D', 'E'].map((name) => open(`${name} is dark.`, []));
      const other = { ...open('No way home.', []), rule: 'y' };
      const [sheet] = planPages(two, { ...survey, findings: [...alike, other] });
      const words = said(sheet).replaceAll(' | ', ' ');
      expect(words).toContain('A is dark. And 4 more like this.');
      expect(words).not.toContain('B is dark.');
      expect(words).toContain('No way home.');
      const [few] = planPages(two, { ...survey, findings: [...alike.slice(0, 3), other] });
      for (const { message } of [...alike.slice(0, 3), other])
        expect(said(few)).toContain(message.text);
    });
  });
});
