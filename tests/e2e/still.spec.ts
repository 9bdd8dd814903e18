import { expect, type Page, test } from '@playwright/test';
import { type Job, openJob } from './job.ts';

interface Shift {
  readonly value: number;
  /** What moved, as far as it is still there. */
  readonly what: readonly string[];
}

/** Notes what moves on the page by itself, as the browser tells it. */
async function noteShifts(page: Page): Promise<() => Promise<readonly Shift[]>> {
  await page.addInitScript(() => {
    const shifts: Shift[] = [];
    Object.assign(window, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as unknown as (PerformanceEntry & {
        value: number;
        sources: readonly { node: Node | null }[];
      })[])
        shifts.push({
          value: entry.value,
          what: entry.sources.map(({ node }) => node?.textContent ?? ''),
        });
    }).observe({ type: 'layout-shift', buffered: true });
  });
  return () => page.evaluate(() => (window as unknown as { shifts: Shift[] }).shifts.splice(0));
}

const sum = (shifts: readonly Shift[]): number => shifts.reduce((all, { value }) => all + value, 0);

/** What a figure makes that takes the place of a dash. */
const FIGURE = 0.0005;

/** Drags what stands at a place across the plan, picked before, so that its card follows. */
async function dragAcross(page: Page, at: { x: number; y: number }): Promise<void> {
  await page.mouse.click(at.x, at.y);
  await page.waitForTimeout(700);
  await page.mouse.down();
  for (let i = 0; i < 40; i++) {
    await page.mouse.move(at.x + 3 * i, at.y + 1.5 * i);
    await page.waitForTimeout(30);
  }
}

const stepsOf = (desk: Job) => Promise.all([desk.undo(), desk.redo()].map((b) => b.boundingBox()));

test('nothing on the page moves while it is measured for the first time', async ({ page }) => {
  await page.setViewportSize({ width: 1600, height: 1200 });
  const shifts = await noteShifts(page);
  const desk = await openJob(page);
  await expect(page.getByText(/^\d+ runs/).first()).toBeVisible({ timeout: 60_000 });
  await expect(desk.card).toBeVisible();
  await page.waitForTimeout(1500);
  expect(sum(await shifts())).toBeLessThan(FIGURE);
});

for (const kind of ['order-station', 'kitchen-screen'])
  test(`nothing moves while a ${kind} is dragged, let go and measured again`, async ({ page }) => {
    const shifts = await noteShifts(page);
    const desk: Job = await openJob(page);
    await desk.to('devices');
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    const device = [...plan.tables.devices.values()].find((row) => row.kind === kind)!;
    await shifts();
    await dragAcross(page, chart(device.at));
    // A hand that rests lets the panels follow; a press that is not over yet keeps its shifts back until it is.
    await page.waitForTimeout(700);
    // Both stand side by side, and stay there when there is a step to take back.
    const stood = await stepsOf(desk);
    expect(stood[1]!.x - stood[0]!.x).toBeLessThan(50);
    await page.mouse.up();
    await page.waitForTimeout(1500);
    expect(await stepsOf(desk)).toEqual(stood);
    expect(await shifts()).toEqual([]);
  });
