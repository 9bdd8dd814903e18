import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { writePlan } from '../../src/plan/codec.ts';
import { crowdedPlan, SIZE } from '../bench/board-plan.ts';
import { openJob } from './job.ts';

/** Gzipped script that the first picture may take, bytes. */
const FIRST_LOAD = 350 * 1024;

test('the first picture takes no more script than it may', async ({ page }) => {
  const loaded: { url: string; size: number }[] = [];
  page.on('response', async (response) => {
    if (!/javascript/.test(response.headers()['content-type'] ?? '')) return;
    const body = await response.body();
    loaded.push({ url: response.url(), size: gzipSync(body, { level: 9 }).length });
  });
  await openJob(page);
  await page.waitForLoadState('networkidle');
  const scripts = loaded.filter(({ url }) => !/entry|worker/i.test(url));
  expect(scripts.length).toBeGreaterThan(0);
  expect(scripts.reduce((sum, { size }) => sum + size, 0)).toBeLessThan(FIRST_LOAD);
});

test('a crowded plan is drawn aside and still shows what moves at once', async ({ page }) => {
  const plan = crowdedPlan();
  const desk = await openJob(page);
  const buffer = Buffer.from(writePlan(plan));
  await desk.openFile({ name: 'crowded.json', mimeType: 'application/json', buffer });
  await desk.to('devices');
  await expect(page.getByText(`${SIZE.runs} runs`)).toBeVisible({ timeout: 120_000 });
  const chart = await desk.fit(plan);
  const device = plan.tables.devices.get('D1')!;
  const at = chart(device.at);
  const box = await desk.canvas();
  /** How much of a small square of the drawing is not paper. */
  const inked = (x: number, y: number) =>
    page.evaluate(
      ([left, top]) => {
        const canvas = document.querySelector<HTMLCanvasElement>('.board-canvas canvas')!;
        const ratio = canvas.width / canvas.clientWidth;
        const { data } = canvas
          .getContext('2d')!
          .getImageData((left! - 7) * ratio, (top! - 7) * ratio, 14 * ratio, 14 * ratio);
        let dark = 0;
        for (let i = 0; i < data.length; i += 4) if (data[i + 1]! < 140) dark += 1;
        return dark;
      },
      [x - box.x, y - box.y],
    );
  await expect.poll(() => inked(at.x, at.y), { timeout: 30_000 }).toBeGreaterThan(4);
  const there = { x: at.x + 14, y: at.y + 60 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 8, at.y + 30, { steps: 3 });
  await page.mouse.move(there.x, there.y, { steps: 3 });
  await expect.poll(() => inked(there.x, there.y)).toBeGreaterThan(4);
  await page.mouse.up();
  await expect.poll(() => inked(there.x, there.y)).toBeGreaterThan(4);
  await expect(desk.undo()).toBeEnabled();
});
