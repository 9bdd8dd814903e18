import { expect, test } from '@playwright/test';
import { formatLength, formatTotal } from '../../src/base/units.ts';
import type { Point } from '../../src/geometry/point.ts';
import { fromPicture } from '../../src/plan/picture-place.ts';
import type { Plan, Zone } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { surveyOf } from './core.ts';
import { fingersOn } from './fingers.ts';
import { type Job, openJob, SOON } from './job.ts';
import { SCAN, scannedPlan } from './picture.ts';

test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

const FT = 304.8;
const zoneOf = (plan: Plan): Zone => [...plan.tables.zones.values()][0]!;

/** Width and depth of a rectangular outline, in whole feet. */
function sides(outline: readonly Point[]): number[] {
  const span = (of: number[]) => Math.round((Math.max(...of) - Math.min(...of)) / FT);
  return [span(outline.map((p) => p[0])), span(outline.map((p) => p[1]))];
}

/** A room of 24' by 18' with a closet and two stations, made by fingers alone. */
async function smallShop(desk: Job): Promise<Plan> {
  const { page } = desk;
  await desk.blank();
  await desk.press(page.getByRole('button', { name: t('start.blank-go') }));
  const open = await desk.fit(await desk.plan());
  await desk.click(open([4000, 4000]));
  // The finger points to where the room goes; the tape says how far.
  const length = page.getByRole('textbox', { name: 'Length' });
  await length.fill('24 x 18');
  await length.press('Enter');
  await desk.press(page.getByRole('button', { name: 'Done', exact: true }));
  const drawn = await desk.plan();
  expect(sides(zoneOf(drawn).outline)).toEqual([24, 18]);
  const [x, y] = zoneOf(drawn).outline.reduce((a, b) => (b[0] + b[1] < a[0] + a[1] ? b : a));
  const chart = await desk.fit(drawn);
  await desk.to('devices');
  await desk.take('Network closet');
  await desk.click(chart([x + 700, y + 700]));
  await desk.to('devices');
  await desk.take('Order station');
  await desk.click(chart([x + 6000, y + 1400]));
  await desk.click(chart([x + 4000, y + 4100]));
  await desk.press(page.getByRole('button', { name: 'Done', exact: true }));
  const plan = await desk.plan();
  expect([plan.tables.closets.size, plan.tables.devices.size]).toEqual([1, 2]);
  return plan;
}

test('by fingers: a room off the tape, a closet, devices, and the sum of a run', async ({
  page,
}) => {
  const desk = await openJob(page, 'touch');
  const plan = await smallShop(desk);
  const survey = surveyOf(plan);
  await expect(desk.leg('runs')).toContainText(formatTotal(survey.totals.cable, 'ft'), SOON);
  const chart = await desk.fit(plan);
  const [station] = [...plan.tables.devices.values()];
  await desk.click(chart(station!.at));
  await desk.press(
    page.getByRole('navigation', { name: t('panel.bar') }).getByText(t('panel.card.short')),
  );
  const jack = [...plan.tables.jacks.values()].find((j) => j.device === station!.id)!;
  const run = survey.runs.find((r) => r.jack === jack.id)!;
  await expect(desk.cable(run.label)).toHaveText(formatLength(run.cable, 'ft'), SOON);
  // What a finding is about is shown beside the drawer that lists it: a finger finds it in the middle of what is free.
  await desk.to('checks');
  const finding = desk.shelf.getByRole('article').filter({ hasText: 'Order station' }).first();
  await desk.press(finding.getByRole('button', { name: t('finding.show') }));
  const board = await desk.canvas();
  const drawer = (await desk.shelf.boundingBox())!;
  const left = drawer.x + drawer.width;
  await desk.click({ x: (left + board.width) / 2, y: board.y + board.height / 2 });
  await desk.press(
    page.getByRole('navigation', { name: t('panel.bar') }).getByText(t('panel.card.short')),
  );
  await expect(desk.card.getByRole('heading', { name: 'Order station' }).first()).toBeVisible();
  // A name that is being typed while the page goes out of sight is kept, should the page not come back.
  const name = desk.card.getByRole('textbox', { name: t('field.name') });
  const last = (await desk.undo().getAttribute('aria-label'))!;
  await name.tap();
  await page.keyboard.type('Front');
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden' });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await expect(desk.undo()).not.toHaveAccessibleName(last);
  await expect(name).toBeFocused();
  const names = [...(await desk.plan()).tables.devices.values()].map((device) => device.name);
  expect(names).toContain('Front');
  // The second of two quick taps mends nothing: by then the next finding may be under the finger.
  await desk.to('checks');
  const mends = desk.shelf.getByRole('article').getByRole('button', { name: /power outlet/ });
  await mends.first().dispatchEvent('click', { detail: 2 });
  await desk.press(mends.first());
  expect((await desk.plan()).tables.powers.size).toBe(1);
});

test('a second finger cancels a drag and moves the drawing instead', async ({ page }) => {
  const desk = await openJob(page, 'touch');
  const plan = await smallShop(desk);
  const chart = await desk.fit(plan);
  const station = [...plan.tables.devices.values()][1]!;
  const at = chart(station.at);
  const fingers = await fingersOn(page);
  const by = (dx: number, dy: number) => ({ x: at.x + dx, y: at.y + dy });

  await fingers.down(1, at);
  await fingers.move({ 1: by(40, 0) });
  await fingers.move({ 1: by(80, 0) });
  await fingers.down(2, by(80, -200));
  await fingers.move({ 1: by(80, 60), 2: by(80, -140) });
  await fingers.up(2);
  await fingers.move({ 1: by(160, 60) });
  await fingers.up(1);
  expect(await desk.plan()).toEqual(plan);

  // The drawing went along with the two fingers by 60 px: the station is dragged from where it is now.
  const there = by(0, 60);
  await fingers.down(1, there);
  await fingers.move({ 1: { x: there.x + 40, y: there.y } });
  await fingers.move({ 1: { x: there.x + 80, y: there.y } });
  await fingers.up(1);
  const moved = (await desk.plan()).tables.devices.get(station.id)!;
  expect(moved.at[0]).toBeGreaterThan(station.at[0] + 200);

  // With the hand one finger moves the drawing, and nothing on it; a tap picks what lies there.
  await desk.press(page.getByRole('button', { name: t('board.hand'), exact: true }));
  const before = await desk.plan();
  const on = (await desk.fit(before))(moved.at);
  await fingers.down(1, on);
  await fingers.move({ 1: { x: on.x, y: on.y + 40 } });
  await fingers.move({ 1: { x: on.x, y: on.y + 120 } });
  await fingers.up(1);
  expect(await desk.plan()).toEqual(before);
  await desk.click({ x: on.x, y: on.y + 120 });
  await desk.press(
    page.getByRole('navigation', { name: t('panel.bar') }).getByText(t('panel.card.short')),
  );
  await expect(desk.card.getByRole('heading', { name: 'Order station' }).first()).toBeVisible();
});

test('a loupe beside the finger shows where it will put something, until it is lifted', async ({
  page,
}) => {
  const desk = await openJob(page, 'touch');
  const plan = await smallShop(desk);
  const chart = await desk.fit(plan);
  await desk.to('devices');
  await desk.take('Order station');
  const at = chart([plan.tables.closets.values().next().value!.at[0] + 3000, 5600]);
  const box = await desk.canvas();
  /** How opaque the upper canvas is along the column over the finger. */
  const column = () =>
    page.evaluate(
      ([x, y]) => {
        const canvas = document.querySelectorAll<HTMLCanvasElement>('.board-canvas canvas')[1]!;
        const ratio = canvas.width / canvas.clientWidth;
        const { data } = canvas
          .getContext('2d')!
          .getImageData(Math.round(x! * ratio), 0, 1, Math.round(y! * ratio));
        return Array.from({ length: data.length / 4 }, (_, i) => data[i * 4 + 3]!);
      },
      [at.x - box.x, at.y - box.y - 40],
    );
  const covered = async () => (await column()).filter((alpha) => alpha === 255).length;
  const fingers = await fingersOn(page);
  const before = await covered();
  await fingers.down(1, at);
  await fingers.move({ 1: { x: at.x, y: at.y + 1 } });
  // 112 px of paper with the drawing on it, more than rulers and marks.
  await expect.poll(covered).toBeGreaterThan(before + 100);
  // Longer than a press that asks for the menu: with a device in hand, it aims.
  await page.waitForTimeout(700);
  await fingers.up(1);
  await expect.poll(covered).toBeLessThan(before + 60);
  expect((await desk.plan()).tables.devices.size).toBe(3);
});

test('a hand that rests beside the pen draws nothing; a finger draws', async ({ page }) => {
  const desk = await openJob(page, 'touch');
  const plan = await smallShop(desk);
  const chart = await desk.fit(plan);
  await desk.to('devices');
  await desk.take('Order station');
  const glass = await page.context().newCDPSession(page);
  const closet = plan.tables.closets.values().next().value!.at;
  const penAt = chart([closet[0] + 3000, closet[1] + 1500]);
  const palmAt = chart([closet[0] + 4500, closet[1] + 3000]);
  const palm = (type: 'touchStart' | 'touchEnd') =>
    glass.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchEnd' ? [] : [{ ...palmAt, id: 9, radiusX: 45, radiusY: 60 }],
    });
  const pen = (type: 'mousePressed' | 'mouseReleased') =>
    glass.send('Input.dispatchMouseEvent', {
      type,
      ...penAt,
      button: 'left',
      buttons: type === 'mousePressed' ? 1 : 0,
      clickCount: 1,
      pointerType: 'pen',
    });
  // The hand comes first, as hands do; the pen writes beside it; the hand goes, and rests once more.
  await palm('touchStart');
  await pen('mousePressed');
  await pen('mouseReleased');
  await palm('touchEnd');
  await palm('touchStart');
  await palm('touchEnd');
  await expect(desk.undo()).toBeEnabled();
  expect((await desk.plan()).tables.devices.size).toBe(3);
  await desk.click(palmAt);
  expect((await desk.plan()).tables.devices.size).toBe(4);
});

test('a touch that the system takes away leaves the plan as it was', async ({ page }) => {
  const desk = await openJob(page, 'touch');
  const plan = await smallShop(desk);
  const chart = await desk.fit(plan);
  const at = chart([...plan.tables.devices.values()][1]!.at);
  const glass = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchCancel', dx: number) =>
    glass.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchCancel' ? [] : [{ x: at.x + dx, y: at.y, id: 1 }],
    });
  await touch('touchStart', 0);
  await touch('touchMove', 40);
  await touch('touchMove', 90);
  await touch('touchCancel', 0);
  expect(await desk.plan()).toEqual(plan);
});

test('a finger that stays opens the menu, and picks nothing of it by being lifted', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const desk = await openJob(page, 'touch');
  const fingers = await fingersOn(page);
  const box = await desk.canvas();
  const at = { x: 195, y: box.y + box.height - 30 };
  await fingers.down(1, at);
  const menu = page.getByRole('menu');
  await expect(menu).toBeVisible();
  // There is no room beside the finger on so small a screen.
  const { y, height } = (await menu.boundingBox())!;
  expect(y < at.y && at.y < y + height).toBe(true);
  await fingers.up(1);
  await page.waitForTimeout(300);
  await expect(menu).toBeVisible();
  await menu.getByRole('menuitem', { name: 'Camera' }).tap();
  await expect(desk.undo()).toBeEnabled();
  // A keyboard on the glass may leave no room for the board at all; when it goes, the board is as it was.
  const plan = await desk.plan();
  await page.setViewportSize({ width: 390, height: 240 });
  await expect(desk.board.locator('canvas')).toHaveCount(0);
  await page.setViewportSize({ width: 390, height: 844 });
  await expect(desk.board.locator('canvas').first()).toBeVisible();
  expect(await desk.plan()).toEqual(plan);
  // What comes into the bar while something is drawn does not move the drawing under the finger.
  await desk.to('rooms');
  await desk.take('Wall');
  const size = await desk.canvas();
  for (const y of [30, 70, 110]) {
    await desk.click({ x: 120 + y, y: size.y + size.height - y });
    expect(await desk.canvas()).toEqual(size);
  }
  await expect(page.getByRole('button', { name: 'Finish', exact: true })).toBeVisible();
});

test('the scale of a plan is set by taps, with a keyboard on half of the glass', async ({
  page,
}) => {
  const desk = await openJob(page, 'touch');
  await desk.blank();
  const buffer = scannedPlan();
  await desk.choose({ name: 'hall.png', mimeType: 'image/png', buffer }, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .tap(),
  );
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
  const plan = await desk.plan();
  const [picture] = [...plan.tables.backgrounds.values()];
  const chart = await desk.fit(plan);
  const on = (x: number, y: number) => chart(fromPicture(picture!, [x, y]));
  await desk.to('base');
  await desk.take(t('base.set'));
  await desk.click(on(SCAN.left, 600));
  await desk.click(on(SCAN.right, 600));
  const length = desk.dialog.getByRole('textbox', { name: t('length.real') });
  await expect(length).toBeFocused();
  const half = 600;
  await page.setViewportSize({ width: 820, height: half });
  const foot = async () => {
    const { y, height } = (await desk.dialog.boundingBox())!;
    return y + height;
  };
  await expect.poll(foot).toBeLessThan(half);
  await page.keyboard.type("113'");
  await desk.dialog.getByRole('button', { name: t('length.set.go') }).tap();
  await expect(desk.leg('base')).not.toContainText(t('leg.base.set-scale'));
});
