import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { fromPicture } from '../../src/plan/picture-place.ts';
import type { Background, Plan, Wall } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { type Job, openJob, SOON, type Spot } from './job.ts';
import { pictureOf } from './pdf.ts';

const FT = 304.8;

/**
 * The workshop floor, in points of its sheet of 42 × 30 in.; see the fixture's README for where it comes from. It says
 * "1/4 inch to 1 ft scale" and "28.25 inches is 113 feet": the building's inside width.
 */
const SHEET = {
  width: 3024,
  stated: 113 * FT,
  /** mm of the building to a point: 48 times 25.4 / 72. */
  point: (48 * 25.4) / 72,
  /** The middles of walls round the room in the upper left corner, each at a place of it. */
  room: { top: [600, 866.6], right: [641.6, 1000], bottom: [560, 1120.2], left: [466.2, 1000] },
  /** The room between its faces, as the lines of the sheet lie. */
  inside: { x0: 475.2, y0: 875.6, x1: 632.64, y1: 1111.2 },
  /** The inner face of the right outer wall, and a place of that wall. */
  right: 2508.84,
  far: [2517.2, 950],
} as const;

const bytes = readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url));
const backgroundOf = (plan: Plan): Background => [...plan.tables.backgrounds.values()][0]!;
const wallsOf = (plan: Plan): Wall[] => [...plan.tables.walls.values()];

async function brought(page: Page, name: string, mimeType: string, buffer: Buffer, by?: 'touch') {
  const desk = await openJob(page, by);
  await desk.blank();
  const button = page.getByRole('button', { name: t('base.choose') }).first();
  if (!(await button.isVisible())) await desk.to('base');
  await desk.choose({ name, mimeType, buffer }, () => desk.press(button));
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 30_000 });
  return desk;
}

async function setPrintedScale(desk: Job): Promise<void> {
  await desk.to('base');
  await desk.press(desk.shelf.getByRole('button', { name: t('base.printed') }));
  await desk.dialog.getByLabel(t('scale.printed')).fill('1/4" = 1\'-0"');
  await desk.press(desk.dialog.getByRole('button', { name: t('length.set.go') }));
  await expect(desk.dialog).toHaveCount(0);
}

/** Where on the page a place of the sheet is, in points. */
async function charted(desk: Job): Promise<(at: readonly [number, number]) => Spot> {
  const plan = await desk.plan();
  const sheet = backgroundOf(plan);
  const chart = await desk.fit(plan);
  const pixels = sheet.width / SHEET.width;
  return ([x, y]) => chart(fromPicture(sheet, [x * pixels, y * pixels]));
}

/** How wide the building is inside, between the walls at its far sides. */
function insideWidth(walls: readonly Wall[]): number {
  const upright = walls.filter(({ a, b }) => a[0] === b[0]).sort((p, q) => p.a[0] - q.a[0]);
  const [left, right] = [upright[0]!, upright.at(-1)!];
  return right.a[0] - right.thickness / 2 - (left.a[0] + left.thickness / 2);
}

test('a room is taken over from the lines of a PDF, and the building is as wide as its sheet says', async ({
  page,
}) => {
  const desk = await brought(page, 'workshop.pdf', 'application/pdf', bytes);
  await desk.to('rooms');
  await desk.take(t('rooms.trace'));
  // Without a scale nobody can tell how thick a wall is.
  await expect(desk.notices).toContainText('Set the scale of the background first', SOON);
  await setPrintedScale(desk);
  await desk.to('rooms');
  await desk.take(t('rooms.trace'));
  await expect(desk.hint).toContainText('Walls offered', SOON);
  await expect(desk.notices).not.toContainText('Set the scale');
  const at = await charted(desk);
  const before = await desk.saved();
  // Pointing at one says how thick it is, and adds nothing.
  const { top, right, bottom, left } = SHEET.room;
  await page.mouse.move(at(right).x, at(right).y);
  await expect(desk.hint).toContainText("1' thick, as measured");
  expect(await desk.saved()).toBe(before);
  for (const place of [top, right, bottom]) await desk.click(at(place));
  // The outer wall at the left has a window, which is taken over with it.
  await page.mouse.move(at(left).x, at(left).y);
  await expect(desk.hint).toContainText("1' thick, as measured, with a window");
  for (const place of [left, SHEET.far]) await desk.click(at(place));
  const taken = await desk.plan();
  const walls = wallsOf(taken);
  expect(walls).toHaveLength(5);
  expect([...taken.tables.openings.values()]).toMatchObject([
    { wall: walls[3]!.id, kind: 'window' },
  ]);
  expect(Math.abs(insideWidth(walls) / SHEET.stated - 1)).toBeLessThan(0.001);

  // The walls close round the room, whose faces lie where the sheet has them.
  await desk.take(t('rooms.fill'));
  await desk.click(at([550, 1000]));
  const plan = await desk.plan();
  const [zone] = [...plan.tables.zones.values()];
  const span = (axis: 0 | 1) => {
    const all = zone!.outline.map((p) => p[axis]);
    return Math.max(...all) - Math.min(...all);
  };
  const { x0, y0, x1, y1 } = SHEET.inside;
  expect(zone!.outline).toHaveLength(4);
  expect(Math.abs(span(0) - 305 - (x1 - x0) * SHEET.point)).toBeLessThan(4);
  expect(Math.abs(span(1) - 305 - (y1 - y0) * SHEET.point)).toBeLessThan(4);

  // All that is sure, by a box in one step; what stands already is not taken over twice.
  await desk.take(t('rooms.trace'));
  await desk.drag(at([150, 30]), at([2900, 2100]));
  const boxed = wallsOf(await desk.plan());
  expect(boxed.length).toBeGreaterThan(70);
  // Another room closes by a click, though the outer wall has windows and the other a doorway.
  await desk.take(t('rooms.fill'));
  await desk.click(at([1788, 631]));
  expect([...(await desk.plan()).tables.zones.values()].at(-1)!.outline).toHaveLength(4);
  await desk.undo().click();
  await desk.undo().click();
  expect(wallsOf(await desk.plan())).toHaveLength(5);
  await page.keyboard.press('Escape');
  await expect(desk.hint).toContainText('Click to select');
});

test('by keys: the tool, a wall under the cursor, and away again', async ({ page }) => {
  const desk = await brought(page, 'workshop.pdf', 'application/pdf', bytes);
  await setPrintedScale(desk);
  await charted(desk);
  await desk.board.focus();
  await page.keyboard.press('Shift+W');
  await expect(desk.hint).toContainText('Walls offered', SOON);
  // The cursor begins in the middle of the board, to the right of the middle of the sheet's walls.
  const over = async (): Promise<boolean> =>
    (await desk.hint.textContent())!.includes('thick, as measured');
  for (let i = 0; i < 200 && !(await over()); i++) await page.keyboard.press('ArrowLeft');
  expect(await over()).toBe(true);
  await page.keyboard.press('Enter');
  await expect(desk.undo()).toHaveAccessibleName(/Take over 1 wall/);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Escape');
  await expect(desk.hint).toContainText('Click to select');
  expect(wallsOf(await desk.plan())).toEqual([]);
});

test('a drawing snaps to the lines of a PDF until that is put away', async ({ page }) => {
  const desk = await brought(page, 'workshop.pdf', 'application/pdf', bytes);
  await setPrintedScale(desk);
  await desk.to('rooms');
  const at = await charted(desk);
  const { x0, y0, x1 } = SHEET.inside;
  // A hand begins a little late, and stops a little early.
  const off = ([x, y]: readonly [number, number], by: number): Spot => ({
    x: at([x, y]).x + by,
    y: at([x, y]).y + 1,
  });
  const length = async (): Promise<number> => {
    const { a, b } = wallsOf(await desk.plan()).at(-1)!;
    return Math.hypot(b[0] - a[0], b[1] - a[1]);
  };
  const toggle = desk.bench.getByRole('button', { name: t('bench.snap-under') });
  await expect(toggle).toHaveAttribute('aria-pressed', 'true');
  await desk.board.focus();
  await page.keyboard.press('w');
  // The lines are read while the tool is in hand; then the ends of the face along the top of the room act.
  const error = async (): Promise<number> => {
    await desk.click(off([x0, y0], 1));
    await desk.click(off([x1, y0], -2));
    await page.keyboard.press('Enter');
    const far = await length();
    await desk.undo().click();
    return Math.abs(far - (x1 - x0) * SHEET.point);
  };
  await expect.poll(error, SOON).toBeLessThan(4);
  await page.keyboard.press('/');
  await expect(toggle).toHaveAttribute('aria-pressed', 'false');
  expect(await error()).toBeGreaterThan(20);
  await toggle.click();
  await expect(toggle).toHaveAttribute('aria-pressed', 'true');
});

test('the walls of an SVG are offered as well, once a length on it is known', async ({ page }) => {
  const svg = gunzipSync(
    readFileSync(new URL('../fixtures/plans/workshop-floor.svg.gz', import.meta.url)),
  );
  const desk = await brought(page, 'workshop.svg', 'image/svg+xml', svg);
  await desk.to('base');
  const first = await charted(desk);
  await desk.take(t('base.set'));
  await desk.drag(first([SHEET.inside.x0, 1000]), first([SHEET.right, 1000]));
  await desk.answerLength("113'", t('length.set.go'));
  await desk.to('rooms');
  await desk.take(t('rooms.trace'));
  await expect(desk.hint).toContainText('Walls offered', SOON);
  const at = await charted(desk);
  await desk.click(at(SHEET.room.top));
  const [wall] = wallsOf(await desk.plan());
  // A foot, to what a length that was drawn by hand can say.
  expect(Math.abs(wall!.thickness - FT)).toBeLessThan(4);
});

/** The same sheet as a picture made of dots. */
const scanned = (context: BrowserContext) => pictureOf(context, bytes, 3024);

test('a room is traced from a picture with the ordinary tools, once its scale is set', async ({
  page,
  context,
}) => {
  const desk = await brought(page, 'workshop.png', 'image/png', await scanned(context));
  await desk.to('rooms');
  await desk.take(t('rooms.trace'));
  await expect(desk.notices).toContainText('made of dots', SOON);
  await expect(desk.hint).toContainText('Trace it with the wall tool');
  const { x0, y0, x1, y1 } = SHEET.inside;
  await desk.to('base');
  const first = await charted(desk);
  await desk.take(t('base.set'));
  await desk.drag(first([x0, 1000]), first([SHEET.right, 1000]));
  await desk.answerLength("113'", t('length.set.go'));
  await desk.to('rooms');
  const at = await charted(desk);
  await page.keyboard.press('b');
  await desk.drag(at([x0, y0]), at([x1, y1]));
  const plan = await desk.plan();
  const [zone] = [...plan.tables.zones.values()];
  const span = (axis: 0 | 1) => {
    const all = zone!.outline.map((p) => p[axis]);
    return Math.max(...all) - Math.min(...all);
  };
  // To what a hand on a screen that shows the whole building can do: a pixel and a half foot of grid.
  expect(Math.abs(span(0) - (x1 - x0) * SHEET.point)).toBeLessThan(320);
  expect(Math.abs(span(1) - (y1 - y0) * SHEET.point)).toBeLessThan(320);
  expect(wallsOf(plan)).toHaveLength(4);
});

test.describe('by fingers', () => {
  test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

  test('walls are taken over by taps', async ({ page }) => {
    const desk = await brought(page, 'workshop.pdf', 'application/pdf', bytes, 'touch');
    await setPrintedScale(desk);
    await desk.to('rooms');
    await desk.take(t('rooms.trace'));
    await expect(desk.hint).toContainText('Tap one', SOON);
    const at = await charted(desk);
    await desk.click(at(SHEET.room.right));
    await desk.click(at(SHEET.far));
    expect(wallsOf(await desk.plan()).map(({ thickness }) => thickness)).toEqual([305, 285]);
  });
});
