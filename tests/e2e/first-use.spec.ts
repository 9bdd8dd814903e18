import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { fromPicture } from '../../src/plan/picture-place.ts';
import type { Background, Plan } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { openJob, SOON } from './job.ts';

test.use({ viewport: { width: 1280, height: 800 } });

const sheet = {
  name: 'workshop.pdf',
  mimeType: 'application/pdf',
  buffer: readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url)),
};
const backgroundOf = (plan: Plan): Background => [...plan.tables.backgrounds.values()][0]!;

test('the first screen says that it is a sample, and leads to a job of one’s own', async ({
  page,
}) => {
  const desk = await openJob(page);
  const strip = page.getByRole('region', { name: t('sample.label') });
  await expect(strip).toContainText(t('sample.is'));
  await desk.to('base');
  await expect(desk.shelf).toContainText(t('sample.base'));
  await strip.getByRole('button', { name: t('sample.own') }).click();
  await expect(page.getByRole('heading', { name: t('start.title') })).toBeVisible(SOON);
  await expect(strip).toHaveCount(0);
  await expect(desk.leg('base')).toContainText(t('leg.base.blank'));
});

test('a plan that is brought asks for its scale, and stays in view while it gets one', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  const start = page.getByRole('button', { name: t('base.choose') }).first();
  await desk.choose(sheet, () => start.click());
  await expect(desk.card).toContainText(t('next.scale'), SOON);

  const before = backgroundOf(await desk.plan());
  const chart = await desk.fit(await desk.plan());
  await desk.card.getByRole('button', { name: t('base.printed') }).click();
  await desk.dialog.getByLabel(t('scale.printed')).fill('1/8" = 1\'-0"');
  await page.keyboard.press('Enter');
  await expect(desk.card).toContainText(t('next.check-printed'));
  await expect(desk.notices).not.toContainText('set its scale');

  // The same two pixels of the picture are where they were on the screen, so the check can be drawn at once.
  await desk.card.getByRole('button', { name: t('next.go-tool') }).click();
  const on = (x: number, y: number) => chart(fromPicture(before, [x, y]));
  const { width, height } = before;
  await desk.drag(on(width / 4, height / 2), on(width / 2, height / 2));
  await expect(page.getByRole('textbox', { name: t('board.length'), exact: true })).toHaveCount(0);
  // The question stands where it does not lie over the line that it is about.
  const asked = (await desk.dialog.boundingBox())!;
  const ends = [on(width / 4, height / 2), on(width / 2, height / 2)] as const;
  const beside = asked.x > ends[1].x || asked.x + asked.width < ends[0].x;
  expect(beside || asked.y > ends[0].y || asked.y + asked.height < ends[0].y).toBe(true);
  await desk.answerLength("90'", t('length.check.go'));
  const { check } = backgroundOf(await desk.plan());
  // To the pixel of the screen, which is some of the picture's.
  expect(Math.abs(check!.a[0] / (width / 4) - 1)).toBeLessThan(0.01);
  expect(Math.abs(check!.b[0] / (width / 2) - 1)).toBeLessThan(0.01);
  await expect(desk.shelf).toContainText(t('base.said.covers-printed'));
});

test('the board stays as large while a room is drawn and a first device is placed', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  await desk.to('checks');
  await expect(desk.leg('price')).not.toContainText('$');
  await page.getByRole('button', { name: t('start.blank-go') }).click();
  const size = await desk.canvas();
  const middle = { x: size.x + size.width / 2, y: size.y + size.height / 2 };
  await desk.click(middle);
  await page.mouse.move(middle.x + 90, middle.y + 70, { steps: 3 });
  expect(await desk.canvas()).toEqual(size);
  await desk.click({ x: middle.x + 90, y: middle.y + 70 });
  await desk.to('devices');
  await desk.take('Kiosk');
  await desk.click({ x: middle.x + 45, y: middle.y + 35 });
  await expect(desk.leg('devices')).toContainText('1 jack', SOON);
  expect(await desk.canvas()).toEqual(size);
  // A click on the drawing that shuts a menu does nothing else: with the kiosk in hand it would place another one.
  const menu = page.getByRole('menu');
  await page.mouse.click(middle.x + 45, middle.y + 35, { button: 'right' });
  await expect(menu).toBeVisible();
  await desk.click({ x: middle.x + 20, y: middle.y + 20 });
  await expect(menu).toBeHidden();
  await page.getByRole('button', { name: t('menu.job'), exact: true }).click();
  await desk.click({ x: middle.x + 20, y: middle.y + 20 });
  await expect(page.locator('.drop-list')).toHaveCount(0);
  await expect(desk.leg('devices')).toContainText('1 jack');
  // One value tried after another in one field is one step; the next field is another.
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await desk.click({ x: middle.x + 15, y: middle.y + 60 });
  const ceiling = desk.card.getByLabel(t('field.ceiling'), { exact: true });
  const before = await ceiling.inputValue();
  const steps = (await desk.bench.locator('.step-count').textContent())!;
  for (const kind of ['tile', 'hard', 'tile', 'open', 'hard']) await ceiling.selectOption(kind);
  await desk.card.getByLabel(t('field.area')).selectOption('C');
  await desk.undo().click();
  await desk.undo().click();
  await expect(ceiling).toHaveValue(before);
  await expect(desk.bench.locator('.step-count')).toHaveText(steps);
  // The ladder rises where it is read, and what was in view stays in view.
  await desk.to('runs');
  await expect(desk.ladder.getByText(t('ladder.title'))).toBeVisible();
  expect((await desk.canvas()).height).toBeLessThan(size.height);
});

test('the list of keys stands within the window, and is scrolled by keys where it is taller', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1280, height: 600 });
  const desk = await openJob(page);
  await desk.bench.getByRole('button', { name: t('help.title') }).click();
  const box = (await desk.dialog.boundingBox())!;
  expect(box.y).toBeGreaterThanOrEqual(0);
  expect(box.y + box.height).toBeLessThanOrEqual(600);
  const last = desk.dialog.getByText(t('help.says.repeat'));
  await expect(last).not.toBeInViewport();
  await page.keyboard.press('End');
  await expect(last).toBeInViewport();
});
