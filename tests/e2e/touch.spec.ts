import { expect, test } from '@playwright/test';
import { formatLength, formatTotal } from '../../src/base/units.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Plan, Zone } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { surveyOf } from './core.ts';
import { fingersOn } from './fingers.ts';
import { type Job, openJob, SOON } from './job.ts';

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
});
