import { expect, test } from '@playwright/test';
import { formatLength, formatMoney, formatTotal, parseLength } from '../../src/base/units.ts';
import { distance } from '../../src/geometry/nearest.ts';
import { fromPicture } from '../../src/plan/picture-place.ts';
import { type Background, job, type Plan } from '../../src/plan/plan.ts';
import { PAPERS } from '../../src/sheets/sheet.ts';
import { formatMoneyShort, formatPercent, t } from '../../src/text/index.ts';
import { blankText, planOf, surveyOf } from './core.ts';
import { type Job, openJob, SOON } from './job.ts';
import { readPdf } from './pdf.ts';
import { SCAN, scannedPlan } from './picture.ts';

const FT = 304.8;
const feet = (text: string): number => parseLength(text, 'ft')!;

const backgroundOf = (plan: Plan): Background => [...plan.tables.backgrounds.values()][0]!;

/** The share by which a check says that a picture is too long. */
function errorOf({ check, mmPerPixel }: Background): number {
  const [ax, ay] = check!.a;
  const [bx, by] = check!.b;
  return (Math.hypot(bx - ax, by - ay) * mmPerPixel) / check!.length - 1;
}

/** Every figure of the job line is what the core says of the job as it would be saved now. */
async function figuresAgree(desk: Job): Promise<void> {
  const plan = await desk.plan();
  const survey = surveyOf(plan);
  await expect(desk.leg('runs')).toContainText(formatTotal(survey.totals.cable, 'ft'), SOON);
  await expect(desk.leg('price')).toContainText(
    formatMoneyShort(survey.price.totalCents, survey.price.currency),
  );
  expect(await desk.figure('rooms')).toBe(String(plan.tables.zones.size));
}

test('from a scan to a priced, printed job that is still there tomorrow', async ({
  page,
  context,
}) => {
  test.setTimeout(300_000);
  const desk = await openJob(page);
  await desk.blank();

  await test.step('bring the scan', async () => {
    const start = page.getByRole('button', { name: t('base.choose') }).first();
    const scan = { name: 'hall.png', mimeType: 'image/png', buffer: scannedPlan() };
    await desk.choose(scan, () => start.click());
    await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
    const picture = backgroundOf(await desk.plan());
    expect([picture.width, picture.height]).toEqual([SCAN.width, SCAN.height]);
    expect(picture.scale).toBeNull();
  });

  await test.step('set the scale along a known length', async () => {
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const on = (x: number, y: number) => chart(fromPicture(backgroundOf(plan), [x, y]));
    await desk.to('base');
    await desk.take(t('base.set'));
    await desk.drag(on(SCAN.left, 400), on(SCAN.right, 400));
    await desk.answerLength("113'", t('length.set.go'));
    await expect(desk.leg('base')).toContainText(t('leg.base.set'));
    const { scale, mmPerPixel } = backgroundOf(await desk.plan());
    expect(scale!.length).toBe(Math.round(113 * FT));
    // A tenth of a foot to the pixel, as near as a hand draws on a screen.
    expect(mmPerPixel / (FT / 10)).toBeGreaterThan(0.995);
    expect(mmPerPixel / (FT / 10)).toBeLessThan(1.005);
  });

  await test.step('check it along a second length, and read how far it is off', async () => {
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const on = (x: number, y: number) => chart(fromPicture(backgroundOf(plan), [x, y]));
    await desk.take(t('base.check'));
    await desk.drag(on(300, SCAN.top), on(300, SCAN.bottom));
    await desk.answerLength("60'", t('length.check.go'));
    const error = errorOf(backgroundOf(await desk.plan()));
    // The scan is stretched by 1 % up the sheet.
    expect(error).toBeGreaterThan(0.005);
    expect(error).toBeLessThan(0.015);
    const by = formatPercent(Math.abs(error));
    await expect(desk.shelf).toContainText(t('base.said.long', { by }));
    await expect(desk.leg('base')).toContainText(t('leg.base.checked', { by }));
  });

  await test.step('draw the walls and a room', async () => {
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const on = (x: number, y: number) => chart(fromPicture(backgroundOf(plan), [x, y]));
    const { left, right, top, bottom, cross } = SCAN;
    await desk.to('rooms');
    await desk.take(t('rooms.wall'));
    for (const [x, y] of [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
      [left, top],
    ] as const)
      await desk.click(on(x, y));
    await desk.click(on(cross, top));
    await desk.click(on(cross, bottom - 200));
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    await desk.take(t('rooms.rectangle'));
    await desk.shelf.getByLabel(t('rooms.drawn')).first().selectOption('no-walls');
    await desk.drag(on(cross, top), on(right, bottom));
    await page.keyboard.press('Escape');
    const { walls, zones } = (await desk.plan()).tables;
    expect([walls.size, zones.size]).toEqual([5, 1]);
    const lengths = [...walls.values()]
      .map((wall) => distance(wall.a, wall.b))
      .sort((a, b) => a - b);
    expect(lengths.at(-1)! / (113 * FT)).toBeCloseTo(1, 2);
  });

  await test.step('place the closet and the devices', async () => {
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const on = (x: number, y: number) => chart(fromPicture(backgroundOf(plan), [x, y]));
    const { left, right, top, bottom } = SCAN;
    await desk.to('devices');
    await desk.take('Network closet');
    await desk.click(on(left + 40, top + 40));
    await desk.take('Order station');
    await desk.click(on(300, bottom - 45));
    await desk.click(on(500, bottom - 45));
    await desk.take('Kitchen screen');
    await desk.click(on(right - 15, 300));
    await desk.take('Access point');
    await desk.click(on(900, 500));
    await page.keyboard.press('Escape');
    const { tables } = await desk.plan();
    expect([tables.closets.size, tables.devices.size]).toEqual([1, 4]);
    expect(await desk.figure('devices')).toBe(`4 · ${tables.jacks.size} jacks`);
    await figuresAgree(desk);
  });

  await test.step('read every run off the ladder', async () => {
    await desk.to('runs');
    const plan = await desk.plan();
    const { runs } = surveyOf(plan);
    const show = (mm: number) => formatLength(mm, 'ft');
    const wanted = [...runs]
      .map((run) => [run.label, ...[run.across, run.vertical, run.slack, run.cable].map(show)])
      .sort();
    const rows = (await desk.ladderRows()).map((cells) => cells.slice(0, 5)).sort();
    expect(rows).toEqual(wanted);
  });

  await test.step('open the sum of a run, and add it up', async () => {
    const plan = await desk.plan();
    for (const run of surveyOf(plan).runs) {
      await desk.ladder.getByRole('button', { name: run.label, exact: true }).click();
      const { lines, cable, channel } = await desk.sumCells(run.label);
      expect(lines.reduce((sum, line) => sum + feet(line), 0)).toBeCloseTo(feet(cable), 3);
      expect([cable, channel]).toEqual([
        formatLength(run.cable, 'ft'),
        formatLength(run.channel, 'ft'),
      ]);
    }
  });

  await test.step('see the run follow a drag before it ends', async () => {
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const station = [...plan.tables.devices.values()].find((d) => d.kind === 'order-station')!;
    const { label } = [...plan.tables.jacks.values()].find((j) => j.device === station.id)!;
    const from = chart(station.at);
    await desk.click(from);
    const before = (await desk.cable(label).textContent())!;
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 60, from.y, { steps: 6 });
    await expect(desk.cable(label)).not.toHaveText(before, SOON);
    // Nothing is done yet: what undo would take back is still the step before.
    await expect(desk.undo()).toHaveAccessibleName(t('step.undo', { step: 'Place access point' }));
    await page.keyboard.press('Escape');
    await page.mouse.up();
    await expect(desk.cable(label)).toHaveText(before, SOON);
    await desk.drag(from, { x: from.x + 60, y: from.y });
    const moved = await desk.plan();
    const run = surveyOf(moved).runs.find((r) => r.label === label)!;
    await expect(desk.cable(label)).toHaveText(formatLength(run.cable, 'ft'), SOON);
    expect(formatLength(run.cable, 'ft')).not.toBe(before);
  });

  await test.step('mend a finding with its own button', async () => {
    await desk.to('checks');
    const powerless = async () =>
      surveyOf(await desk.plan()).findings.filter((f) => f.rule === 'power-reach').length;
    // The first stands in full; those that are like it are folded away.
    const mend = desk.shelf.getByRole('button', {
      name: 'Mark a power outlet here',
      includeHidden: true,
    });
    const before = await powerless();
    expect(before).toBeGreaterThan(0);
    await expect(mend).toHaveCount(before, SOON);
    await mend.first().click();
    // A power outlet serves every device in its reach, so one may mend more than one finding.
    await expect(async () => expect(await powerless()).toBeLessThan(before)).toPass(SOON);
    await expect(mend).toHaveCount(await powerless(), SOON);
  });

  await test.step('change a price, and see the total', async () => {
    await desk.to('price');
    const before = surveyOf(await desk.plan()).price;
    await expect(desk.shelf).toContainText(formatMoney(before.totalCents, before.currency), SOON);
    await desk.shelf.getByText(t('price.materials'), { exact: true }).click();
    const field = desk.shelf.getByRole('textbox', { name: t('prices.jack'), exact: true });
    await field.fill('99');
    await field.press('Enter');
    await expect(field).toHaveValue('$99.00');
    const after = surveyOf(await desk.plan()).price;
    expect(after.totalCents).toBeGreaterThan(before.totalCents);
    await expect(desk.shelf).toContainText(formatMoney(after.totalCents, after.currency), SOON);
    await expect(desk.leg('price')).toContainText(
      formatMoneyShort(after.totalCents, after.currency),
    );
  });

  const kept = await desk.saved();

  await test.step('print it', async () => {
    await desk.to('print');
    await desk.shelf.getByLabel(t('print.paper')).selectOption('tabloid');
    const path = await desk.downloaded(() =>
      desk.shelf.getByRole('button', { name: t('print.go') }).click(),
    );
    const pdf = await readPdf(context, path);
    await expect(desk.notices).toContainText(`.pdf”, ${pdf.pages.length} pages.`);
    const plan = planOf(kept);
    const { short, long } = PAPERS.tabloid;
    for (const { size } of pdf.pages) {
      const [a, b] = [Math.min(...size), Math.max(...size)];
      expect([a, b].map((mm) => Math.round(mm * 10) / 10)).toEqual([short, long]);
    }
    expect(pdf.printScaling).toBe('None');
    const words = pdf.pages.map((p) => p.text).join(' ');
    expect(words).toContain(job(plan).name);
    for (const jack of plan.tables.jacks.values()) expect(words).toContain(jack.label);
    const { price } = surveyOf(plan);
    expect(words).toContain(formatMoney(price.totalCents, price.currency));
    expect(await desk.figure('print')).toBe(t.count('leg.sheets', pdf.pages.length));
  });

  await test.step('come back tomorrow and find everything', async () => {
    await expect(page.getByText(/^saved on this device/)).toBeVisible(SOON);
    await page.reload();
    await desk.stands();
    expect(await desk.saved()).toBe(kept);
    await figuresAgree(desk);
  });

  await test.step('undo all of it, and do all of it again', async () => {
    let steps = 0;
    while (await desk.undo().isEnabled()) {
      await desk.undo().click();
      steps += 1;
    }
    expect(await desk.saved()).toBe(blankText());
    expect(steps).toBeGreaterThan(10);
    for (; steps > 0; steps--) await desk.redo().click();
    await expect(desk.redo()).toBeDisabled();
    expect(await desk.saved()).toBe(kept);
  });

  await test.step('open the file that was saved', async () => {
    await desk.blank();
    expect(await desk.saved()).toBe(blankText());
    await desk.openFile({
      name: 'hall.dropwise.json',
      mimeType: 'application/json',
      buffer: Buffer.from(kept),
    });
    await expect(desk.leg('devices')).toContainText('4', SOON);
    expect(await desk.saved()).toBe(kept);
    await figuresAgree(desk);
  });
});
