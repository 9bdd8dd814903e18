import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { fromPicture } from '../../src/plan/picture-place.ts';
import type { Background, Plan } from '../../src/plan/plan.ts';
import { formatPercent, t } from '../../src/text/index.ts';
import { surveyOf } from './core.ts';
import { openJob, SOON } from './job.ts';

const FT = 304.8;
const backgroundOf = (plan: Plan): Background => [...plan.tables.backgrounds.values()][0]!;

/** The workshop floor, in points of its sheet of 42 × 30 in.; see the fixture's README for where it comes from. */
const SHEET = {
  width: 3024,
  height: 2160,
  /** The inside faces of the side walls, which the sheet says are 113' apart. */
  inside: { left: 475, right: 2508, at: 1650 },
  /** The short outer wall at the left, which was measured on site as 29.6 feet. */
  wall: { x: 456, top: 857, bottom: 1378 },
} as const;

test('a page of a PDF becomes a base to scale, and a length measured on site tells how far off it is', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  const buffer = readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url));
  await desk.choose({ name: 'workshop.pdf', mimeType: 'application/pdf', buffer }, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 30_000 });
  const plan = await desk.plan();
  const sheet = backgroundOf(plan);
  // The whole sheet, whatever its resolution.
  expect(sheet.width / sheet.height).toBeCloseTo(SHEET.width / SHEET.height, 2);
  const on =
    (chart: Awaited<ReturnType<typeof desk.fit>>, of: Background) => (x: number, y: number) =>
      chart(fromPicture(of, [(x * of.width) / SHEET.width, (y * of.height) / SHEET.height]));

  await desk.to('base');
  const first = on(await desk.fit(plan), sheet);
  await desk.take(t('base.set'));
  const { left, right, at } = SHEET.inside;
  await desk.drag(first(left, at), first(right, at));
  await desk.answerLength("113'", t('length.set.go'));
  await expect(desk.leg('base')).toContainText(t('leg.base.set'));
  const scaled = await desk.plan();
  // By the sheet's own words it is drawn at 1/48: 42 in. are 168 ft.
  const across = (backgroundOf(scaled).mmPerPixel * sheet.width) / FT;
  expect(Math.abs(across / 168 - 1)).toBeLessThan(0.006);

  const second = on(await desk.fit(scaled), backgroundOf(scaled));
  await desk.take(t('base.check'));
  const { x, top, bottom } = SHEET.wall;
  await desk.drag(second(x, top), second(x, bottom));
  await desk.answerLength("29.6'", t('length.check.go'));
  const checked = await desk.plan();
  const { check, mmPerPixel } = backgroundOf(checked);
  const measured = Math.hypot(check!.b[0] - check!.a[0], check!.b[1] - check!.a[1]) * mmPerPixel;
  const error = measured / (29.6 * FT) - 1;
  // The drawing is some 2 % short of what was measured on site.
  expect(error).toBeGreaterThan(-0.035);
  expect(error).toBeLessThan(-0.01);
  await expect(desk.shelf).toContainText(t('base.said.short', { by: formatPercent(-error) }), SOON);
  const { findings } = surveyOf(checked);
  expect(findings.filter((f) => f.rule === 'scale-off').length).toBe(1);
});

test('a plan can be dropped on the drawing', async ({ page }) => {
  const desk = await openJob(page);
  await desk.blank();
  const { scannedPlan } = await import('./picture.ts');
  const data = await page.evaluateHandle((base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const transfer = new DataTransfer();
    transfer.items.add(new File([bytes], 'hall.png', { type: 'image/png' }));
    return transfer;
  }, scannedPlan().toString('base64'));
  await desk.board.dispatchEvent('dragover', { dataTransfer: data });
  await expect(page.getByText(t('base.drop-here'))).toBeVisible();
  await desk.board.dispatchEvent('drop', { dataTransfer: data });
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
  expect((await desk.plan()).tables.backgrounds.size).toBe(1);
});
