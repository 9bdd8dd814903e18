import { gzipSync } from 'node:zlib';
import { expect, type Page, test } from '@playwright/test';
import { writePlan } from '../../src/plan/codec.ts';
import { t } from '../../src/text/index.ts';
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
  /** How much of a small square of the drawing, or of what lies over it, is drawn in a dark ink. */
  const inked = (x: number, y: number, over = 0) =>
    page.evaluate(
      ([left, top, which]) => {
        const canvas =
          document.querySelectorAll<HTMLCanvasElement>('.board-canvas canvas')[which!]!;
        const ratio = canvas.width / canvas.clientWidth;
        const { data } = canvas
          .getContext('2d')!
          .getImageData((left! - 7) * ratio, (top! - 7) * ratio, 14 * ratio, 14 * ratio);
        let dark = 0;
        for (let i = 0; i < data.length; i += 4)
          if (data[i]! < 190 && data[i + 1]! < 140 && data[i + 3]! > 200) dark += 1;
        return dark;
      },
      [x - box.x, y - box.y, over],
    );
  await expect.poll(() => inked(at.x, at.y), { timeout: 30_000 }).toBeGreaterThan(4);
  const there = { x: at.x + 14, y: at.y + 60 };
  await page.mouse.move(at.x, at.y);
  expect(await inked(there.x, there.y, 1)).toBe(0);
  await page.mouse.down();
  await page.mouse.move(at.x + 8, at.y + 30, { steps: 3 });
  await page.mouse.move(there.x, there.y, { steps: 3 });
  // What is in hand is drawn over the drawing, which lacks it from now on.
  await expect.poll(() => inked(there.x, there.y, 1)).toBeGreaterThan(4);
  await page.mouse.up();
  await expect.poll(() => inked(there.x, there.y, 1), { timeout: 30_000 }).toBe(0);
  await expect.poll(() => inked(there.x, there.y)).toBeGreaterThan(4);
  await expect(desk.undo()).toBeEnabled();
});

/** Counts what React carries out on a page, by the hook that it looks for when it starts. */
async function countCommits(page: Page): Promise<() => Promise<number>> {
  await page.addInitScript(() => {
    const count = { commits: 0 };
    Object.assign(window, {
      count,
      __REACT_DEVTOOLS_GLOBAL_HOOK__: {
        supportsFiber: true,
        inject: () => 1,
        onCommitFiberRoot: () => {
          count.commits += 1;
        },
        onCommitFiberUnmount: () => {},
      },
    });
  });
  return () =>
    page.evaluate(() => (window as unknown as { count: { commits: number } }).count.commits);
}

const FRAMES = 60;

test('React draws nothing while the board is panned, nor while the pointer wanders over it', async ({
  page,
}) => {
  const commits = await countCommits(page);
  const desk = await openJob(page);
  await desk.to('rooms');
  await expect(page.getByText(/^\d+ runs/)).toBeVisible({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  const box = await desk.canvas();
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(middle.x, middle.y);
  for (let i = 0; i < 4; i++) await page.mouse.wheel(0, -200);
  const map = page.getByRole('img', { name: t('board.overview') });
  await expect(map).toBeVisible();
  const frame = () => map.locator('div').boundingBox();
  await page.mouse.down({ button: 'middle' });
  await page.mouse.move(middle.x + 10, middle.y + 10);
  await page.waitForTimeout(500);
  const [before, from] = [await commits(), await frame()];
  expect(before).toBeGreaterThan(0);
  for (let i = 0; i < FRAMES; i++) await page.mouse.move(middle.x + 10 + 2 * i, middle.y + 10 + i);
  await expect.poll(async () => (await frame())!.x).toBeLessThan(from!.x - 5);
  expect(await commits()).toBe(before);
  await page.mouse.up({ button: 'middle' });

  await page.getByRole('button', { name: 'Fit', exact: true }).click();
  // Outside of the building, where there is nothing to point at.
  const corner = { x: box.x + box.width - 60, y: box.y + 40 };
  await page.mouse.move(corner.x, corner.y);
  await page.waitForTimeout(500);
  const still = await commits();
  for (let i = 0; i < FRAMES; i++) await page.mouse.move(corner.x - (i % 30), corner.y + (i % 20));
  expect(await commits()).toBe(still);

  // Over the drawing, from thing to thing without a rest: what is passed over draws nothing, what is rested on does.
  await desk.to('runs');
  const plan = await desk.plan();
  const chart = await desk.fit(plan);
  const outlets = [...plan.tables.outlets.values()].map(({ at }) => chart(at));
  await page.waitForTimeout(500);
  const passed = await page.evaluate(async (places) => {
    const { count } = window as unknown as { count: { commits: number } };
    const board = document.querySelector('.board-canvas')!;
    const before = count.commits;
    for (const { x, y } of places) {
      const at = { clientX: x, clientY: y, pointerType: 'mouse', bubbles: true };
      board.dispatchEvent(new PointerEvent('pointermove', at));
      await Promise.resolve();
    }
    return count.commits - before;
  }, outlets);
  expect(passed).toBe(0);
  await expect(page.locator('.run-strip')).toBeVisible();
});
