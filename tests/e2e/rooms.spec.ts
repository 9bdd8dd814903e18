import { expect, type Page, test } from '@playwright/test';
import { INCH } from '../../src/base/units.ts';
import type { Point } from '../../src/geometry/point.ts';
import { doubleArea } from '../../src/geometry/polygon.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { type Fingers, fingersOn } from './fingers.ts';
import { type Job, openJob, type Spot } from './job.ts';

/** Twenty rooms in four rows, in inches: what lies over a wall of the next row is seldom a wall of its own. */
const ROWS = [
  { depth: 150, widths: [150, 120, 114, 168, 138] },
  { depth: 114, widths: [168, 138, 120, 114, 150] },
  { depth: 168, widths: [120, 156, 144, 150, 120] },
  { depth: 96, widths: [150, 108, 132, 168, 132] },
] as const;
const WIDE = 690;
const DEEP = 528;

const feet = (inches: number): string => `${Math.floor(inches / 12)}'${inches % 12}`;
const size = (width: number, depth: number): string => `${feet(width)} x ${feet(depth)}`;

/** Width and depth of each room, mm, in the order of drawing. */
const sizesOf = (plan: Plan): number[][] =>
  [...plan.tables.zones.values()]
    .sort((a, b) => Number(a.id.slice(1)) - Number(b.id.slice(1)))
    .map(({ outline }) => [0, 1].map((axis) => spread(outline.map((p) => p[axis as 0 | 1]))));
const spread = (of: readonly number[]): number => Math.max(...of) - Math.min(...of);

const mm = (inches: number): number => Math.round(inches * INCH);
const EXPECTED = ROWS.flatMap(({ depth, widths }) => widths.map((w) => [mm(w), mm(depth)]));

/** The length of all walls, mm, and of what of them lies on another wall. */
function wallSums(plan: Plan): { length: number; doubled: number } {
  const walls = [...plan.tables.walls.values()];
  const along = ({ a, b }: { a: Point; b: Point }) => (Math.abs(b[0] - a[0]) > 5 ? 0 : 1);
  const overlap = (p: (typeof walls)[number], q: (typeof walls)[number]): number => {
    const axis = along(p);
    if (along(q) !== axis || Math.abs(p.a[1 - axis]! - q.a[1 - axis]!) > 100) return 0;
    const [lowP, highP] = [p.a[axis]!, p.b[axis]!].sort((a, b) => a - b) as [number, number];
    const [lowQ, highQ] = [q.a[axis]!, q.b[axis]!].sort((a, b) => a - b) as [number, number];
    return Math.max(0, Math.min(highP, highQ) - Math.max(lowP, lowQ));
  };
  let doubled = 0;
  walls.forEach((p, i) => {
    for (const q of walls.slice(i + 1)) doubled += overlap(p, q);
  });
  const length = walls.reduce((sum, { a, b }) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0);
  return { length, doubled };
}

/** Five walls from side to side, and six from front to back through each row. */
const WALLS = (5 * WIDE + 6 * DEEP) * INCH;

const areaOf = (plan: Plan): number =>
  [...plan.tables.zones.values()].reduce(
    (sum, { outline }) => sum + Math.abs(doubleArea(outline)) / 2,
    0,
  );

test('twenty rooms are drawn by their typed lengths alone, to the millimetre, without a doubled wall', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  await page.getByRole('button', { name: t('start.blank-go') }).click();
  const { keyboard } = page;
  await keyboard.press('b');
  for (const [i, { depth, widths }] of ROWS.entries()) {
    if (i > 0) await keyboard.press('Control+ArrowDown');
    // Each row goes back the way that the one before it came.
    const ends = i % 2 === 0 ? 'Enter' : 'ArrowLeft';
    for (const width of widths) {
      await keyboard.type(size(width, depth));
      await keyboard.press(ends);
    }
  }
  await keyboard.press('Escape');
  const plan = await desk.plan();
  expect(sizesOf(plan)).toEqual(EXPECTED);
  expect(Math.abs(areaOf(plan) / (WIDE * DEEP * INCH ** 2) - 1)).toBeLessThan(1e-4);
  const { length, doubled } = wallSums(plan);
  expect(doubled).toBeLessThan(20);
  expect(Math.abs(length - WALLS)).toBeLessThan(60);
});

test.describe('with fingers', () => {
  test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

  /** Two fingers that move the drawing: together by so many pixels, and apart by a factor. */
  async function pinch(fingers: Fingers, middle: Spot, by: Spot, apart: number): Promise<void> {
    const at = (side: number, share: number): Spot => ({
      x: middle.x + by.x * share + side * 80 * (1 + (apart - 1) * share),
      y: middle.y + by.y * share,
    });
    await fingers.down(1, at(-1, 0));
    await fingers.down(2, at(1, 0));
    for (const share of [0.25, 0.5, 0.75, 1])
      await fingers.move({ 1: at(-1, share), 2: at(1, share) });
    await fingers.up(2);
    await fingers.up(1);
  }

  /** Types sizes into the field of the bar, one room after another. */
  async function typeRow(page: Page, { depth, widths }: (typeof ROWS)[number]): Promise<void> {
    const length = page.getByRole('textbox', { name: 'Length' });
    for (const width of widths) {
      await length.fill(size(width, depth));
      await length.press('Enter');
    }
  }

  /** The south-west corner of what was drawn last at the left. */
  const below = (rows: number): Point => [
    0,
    mm(ROWS.slice(0, rows).reduce((sum, { depth }) => sum + depth, 0)),
  ];

  async function drawn(desk: Job): Promise<void> {
    const { page } = desk;
    const open = await desk.fit(await desk.plan());
    const fingers = await fingersOn(page);
    const first = open([0, 0]);
    await fingers.down(1, { x: first.x + 3, y: first.y + 2 });
    await fingers.move({ 1: first });
    await fingers.up(1);
    await typeRow(page, ROWS[0]);

    // Closer, and then on to the next row: two fingers move the drawing and draw nothing.
    const middle = open([6000, 6000]);
    const by = { x: 60, y: -40 };
    await pinch(fingers, middle, by, 1.5);
    const moved = (at: Point): Spot => {
      const { x, y } = open(at);
      return {
        x: middle.x + by.x + 1.5 * (x - middle.x),
        y: middle.y + by.y + 1.5 * (y - middle.y),
      };
    };
    await desk.click(moved(below(1)));
    await pinch(fingers, moved([6000, 9000]), { x: 0, y: -50 }, 1);
    await typeRow(page, ROWS[1]);
    const chart = await desk.fit(await desk.plan());
    await desk.click(chart(below(2)));
    await typeRow(page, ROWS[2]);
  }

  test('twenty rooms: typed beside one another, some from corner to corner, and the drawing moved between', async ({
    page,
  }) => {
    const desk = await openJob(page, 'touch');
    await desk.blank();
    await desk.press(page.getByRole('button', { name: t('start.blank-go') }));
    await drawn(desk);
    const three = await desk.plan();
    expect(sizesOf(three)).toEqual(EXPECTED.slice(0, 15));
    const chart = await desk.fit(three);
    const fingers = await fingersOn(page);
    const last = ROWS[3];
    let x = 0;
    for (const width of last.widths) {
      const from = chart([mm(x), below(3)[1]]);
      x += width;
      const to = chart([mm(x), mm(DEEP)]);
      await fingers.down(1, from);
      await fingers.move({ 1: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 } });
      await fingers.move({ 1: to });
      await fingers.up(1);
    }
    await page.getByRole('button', { name: 'Done', exact: true }).tap();
    const plan = await desk.plan();
    const off = sizesOf(plan).map((sides, i) =>
      Math.max(...sides.map((side, k) => Math.abs(side - EXPECTED[i]![k]!))),
    );
    expect(off).toHaveLength(20);
    // Whole millimetres of a grid of half feet.
    expect(Math.max(...off)).toBeLessThanOrEqual(2);
    const { length, doubled } = wallSums(plan);
    expect(doubled).toBeLessThan(20);
    expect(Math.abs(length - WALLS)).toBeLessThan(60);
  });
});
