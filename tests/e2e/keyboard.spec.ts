import { expect, type Locator, type Page, test } from '@playwright/test';
import { formatTotal } from '../../src/base/units.ts';
import { t } from '../../src/text/index.ts';
import { blankText, surveyOf } from './core.ts';
import { type Job, openJob, SOON } from './job.ts';

const FT = 304.8;

/** Goes on with Tab until something has the focus; fails when it is never reached. */
async function tabTo(page: Page, what: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let i = 0; i < 150; i++) {
    if (await what.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press(key);
  }
  throw new Error(`Tab never reaches ${what}`);
}

async function keyTo(page: Page, what: Locator, key = 'Enter'): Promise<void> {
  await tabTo(page, what);
  await page.keyboard.press(key);
}

/** Lets the cursor of the board step, and clicks with it. */
async function step(page: Page, keys: readonly string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
  await page.keyboard.press('Enter');
}

const times = (count: number, key: string): string[] => Array<string>(count).fill(key);

/** A room of 24' by 18' with a closet and two stations, made by keys alone from the blank sheet. */
async function smallShop(desk: Job): Promise<void> {
  const { page } = desk;
  await keyTo(page, page.getByRole('button', { name: t('menu.job'), exact: true }));
  await keyTo(page, page.getByRole('button', { name: t('menu.new') }));
  await expect(page.getByRole('heading', { name: t('start.title') })).toBeVisible(SOON);
  await keyTo(page, page.getByRole('button', { name: t('start.blank-go') }));
  await tabTo(page, desk.board);
  await step(page, [...times(10, 'ArrowLeft'), ...times(8, 'ArrowUp')]);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.type('24 x 18');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  expect((await desk.plan()).tables.zones.size).toBe(1);
}

test('by keys: legs, shelf, typed lengths, devices by their key, and a step back', async ({
  page,
}) => {
  const desk = await openJob(page);
  await smallShop(desk);
  const [zone] = [...(await desk.plan()).tables.zones.values()];
  const xs = zone!.outline.map((p) => p[0]);
  const ys = zone!.outline.map((p) => p[1]);
  const feet = (of: number[]) => Math.round((Math.max(...of) - Math.min(...of)) / FT);
  expect([feet(xs), feet(ys)]).toEqual([24, 18]);

  await keyTo(page, desk.leg('devices'));
  await keyTo(page, desk.tool('Network closet'));
  await tabTo(page, desk.board);
  await step(page, times(2, 'ArrowDown'));
  await page.keyboard.press('o');
  await step(page, times(5, 'ArrowRight'));
  await step(page, times(5, 'ArrowRight'));
  await page.keyboard.press('Escape');
  const plan = await desk.plan();
  expect([plan.tables.closets.size, plan.tables.devices.size]).toEqual([1, 2]);
  expect([...plan.tables.devices.values()].map((d) => d.kind)).toEqual([
    'order-station',
    'order-station',
  ]);
  const { totals } = surveyOf(plan);
  await expect(desk.leg('runs')).toContainText(formatTotal(totals.cable, 'ft'), SOON);

  // All is all that is drawn, from a leg as well, and none of the words of the desk.
  await desk.leg('devices').focus();
  await page.keyboard.press('Control+a');
  await expect(desk.board).toBeFocused();
  await expect(desk.card).toContainText(t('several.below'));
  expect(await page.evaluate(() => String(getSelection()))).not.toContain(t('leg.rooms'));
  await page.keyboard.press('Escape');

  await page.keyboard.press('Control+z');
  expect((await desk.plan()).tables.devices.size).toBe(1);
  await page.keyboard.press('Control+y');
  expect(await desk.plan()).toEqual(plan);
  for (let i = 0; i < 4; i++) await page.keyboard.press('Control+z');
  expect(await desk.saved()).toBe(blankText());
});

test('by keys: walls off the tape, each end typed as it is drawn', async ({ page }) => {
  const desk = await openJob(page);
  await smallShop(desk);
  const before = (await desk.plan()).tables.walls;
  await tabTo(page, desk.board);
  await page.keyboard.press('w');
  await step(page, times(6, 'ArrowRight'));
  await page.keyboard.press('ArrowDown');
  await page.keyboard.type("7'6");
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.type('5');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  const walls = [...(await desk.plan()).tables.walls.values()].filter((w) => !before.has(w.id));
  const way = ({ a, b }: (typeof walls)[number]) => [b[0] - a[0], b[1] - a[1]];
  expect(walls.map(way)).toEqual([
    [0, Math.round(7.5 * FT)],
    [5 * FT, 0],
  ]);
});

test('by keys: the contents select, move, rename and delete', async ({ page }) => {
  const desk = await openJob(page);
  await smallShop(desk);
  await tabTo(page, desk.board);
  await page.keyboard.press('o');
  await step(page, times(5, 'ArrowRight'));
  await step(page, times(5, 'ArrowRight'));
  await page.keyboard.press('Escape');
  await keyTo(page, desk.bench.getByRole('button', { name: t('contents.title') }));

  const rows = desk.shelf.getByRole('button', { name: /^Order station/ });
  await expect(rows).toHaveCount(2);
  // The list has the keys as soon as it opens, at what is selected.
  await expect(rows.last()).toBeFocused();
  await page.keyboard.press('ArrowUp');
  await expect(rows.first()).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(desk.card.getByRole('heading', { level: 2 })).toContainText('Order station');

  const east = desk.shelf.getByRole('textbox', { name: t('place.east') });
  await tabTo(page, east);
  await page.keyboard.press('Control+a');
  await page.keyboard.type("15'-3");
  await page.keyboard.press('Enter');
  const placed = [...(await desk.plan()).tables.devices.values()];
  expect(placed.map((d) => d.at[0])).toContain(Math.round(15.25 * FT));

  const name = desk.shelf.getByRole('textbox', { name: t('field.name'), exact: true });
  await tabTo(page, name, 'Shift+Tab');
  await page.keyboard.type('Front counter');
  await page.keyboard.press('Enter');
  const named = desk.shelf.getByRole('button', { name: /^Front counter/ });
  await expect(named).toHaveCount(1);

  await tabTo(page, named, 'Shift+Tab');
  await page.keyboard.press('Alt+ArrowRight');
  const nudged = [...(await desk.plan()).tables.devices.values()].find((d) => d.name !== '')!;
  expect(nudged.at[0]).toBe(Math.round(15.25 * FT) + Math.round(FT));

  await page.keyboard.press('Delete');
  await expect(named).toHaveCount(0);
  await expect(rows).toHaveCount(1);
  expect((await desk.plan()).tables.devices.size).toBe(1);
});
