import { expect, test } from '@playwright/test';
import { formatTotal } from '../../src/base/units.ts';
import type { Point } from '../../src/geometry/point.ts';
import { onLevel, type Plan } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { planOf, surveyOf } from './core.ts';
import { type Job, openJob, SOON } from './job.ts';

const last = <T>(rows: ReadonlyMap<string, T>): T => [...rows.values()].at(-1)!;
const total = (plan: Plan): string => formatTotal(surveyOf(plan).totals.cable, 'ft');
const level = (desk: Job) => desk.bench.getByRole('combobox', { name: t('level.choose') });

/** A level on top of the open job, as the shelf adds it. */
async function addOnTop(desk: Job): Promise<void> {
  await desk.to('rooms');
  await desk.press(desk.shelf.getByText(t('level.add'), { exact: true }));
  await desk.press(desk.shelf.getByRole('button', { name: t('level.above'), exact: true }));
  await expect(level(desk).locator('option:checked')).toHaveText('Level 2');
}

test.describe('with a mouse', () => {
  test.use({ viewport: { width: 1280, height: 800 } });

  test('a second level: a room, a place to work, and the riser that brings its run home', async ({
    page,
  }) => {
    const desk = await openJob(page);
    const ground = await desk.plan();
    const chart = await desk.fit(ground);
    await addOnTop(desk);
    await desk.take(t('rooms.rectangle'));
    await desk.drag(chart([1000, 1000]), chart([9000, 6000]));
    await desk.to('devices');
    await desk.take('Office place');
    await desk.click(chart([4000, 1500]));
    const open = await desk.plan();
    expect(last(open.tables.devices)).toMatchObject({ kind: 'office-place', level: 'L2' });
    const { label } = last(open.tables.jacks);
    await page.keyboard.press('Escape');
    await expect(desk.card).toContainText(t('run.no-riser'), SOON);

    await desk.press(desk.card.getByRole('button', { name: t('run.take-riser') }));
    await desk.click(chart([8000, 5000]));
    const joined = await desk.plan();
    expect([...joined.tables.risers.values()]).toMatchObject([{ level: 'L1', upper: 'L2' }]);
    const run = surveyOf(joined).runs.find((r) => r.label === label)!;
    expect(run.segments.map((segment) => segment.level)).toContain('L1');
    await expect(desk.leg('runs')).toContainText(total(joined), SOON);

    await level(desk).selectOption({ label: 'Ground level' });
    await expect(desk.card).toContainText(t('riser.go-up', { level: 'Level 2' }));
    await desk.undo().click();
    await desk.undo().click();
    expect((await desk.plan()).tables.devices.size).toBe(ground.tables.devices.size);
    await expect(level(desk).locator('option:checked')).toHaveText('Level 2');
  });

  test('a level that is removed says what goes with it, and comes back by undo', async ({
    page,
  }) => {
    const desk = await openJob(page);
    const before = await desk.saved();
    const ground = planOf(before);
    await desk.to('rooms');
    await desk.press(desk.shelf.getByText(t('level.add'), { exact: true }));
    await desk.shelf.getByRole('checkbox', { name: t('level.copy-devices') }).check();
    await desk.press(desk.shelf.getByRole('button', { name: t('level.copy-above') }));
    const two = await desk.plan();
    expect(two.tables.devices.size).toBe(2 * ground.tables.devices.size);
    // The name of the step can be read beside the choice of levels, on a small window, too.
    await page.setViewportSize({ width: 1024, height: 768 });
    const cut = (name: Element) => name.scrollWidth > name.clientWidth;
    expect(await desk.bench.locator('.step-last').evaluate(cut)).toBe(false);
    await page.setViewportSize({ width: 1280, height: 800 });
    expect(new Set([...two.tables.jacks.values()].map((jack) => jack.label)).size).toBe(
      two.tables.jacks.size,
    );
    await desk.press(desk.shelf.getByText(t('level.this', { name: 'Level 2' })));
    const rooms = onLevel(two, 'zones', 'L2').length;
    await expect(desk.shelf).toContainText(`${t('group.zones')} ${rooms}`);
    await desk.press(
      desk.shelf.getByRole('button', { name: t('level.remove', { name: 'Level 2' }) }),
    );
    expect(await desk.saved()).toBe(before);
    await desk.undo().click();
    expect((await desk.plan()).tables.devices.size).toBe(two.tables.devices.size);
  });

  test('a new job after work on another begins on its first leg, with the ways to begin', async ({
    page,
  }) => {
    const desk = await openJob(page);
    const chart = await desk.fit(await desk.plan());
    await desk.to('rooms');
    await desk.take(t('rooms.wall'));
    await desk.to('devices');
    await expect(desk.hint).toHaveText(
      'Click to select, drag to move, drag over empty paper for a box.',
    );
    await desk.take('Kiosk');
    await desk.click(chart([9000, 9000]));
    await desk.blank();
    await expect(desk.leg('base')).toHaveAttribute('aria-current', 'step');
    await expect(page.getByRole('heading', { name: t('start.title') })).toBeVisible();
    await desk.undo().click();
    await expect(page.getByRole('heading', { name: t('start.title') })).toHaveCount(0);
  });
});

test.describe('with fingers', () => {
  test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

  test('a group of runs is made to pass a place, and let go again', async ({ page }) => {
    const desk = await openJob(page, 'touch');
    const plan = await desk.plan();
    const chart = await desk.fit(plan);
    await desk.to('runs');
    const group = desk.shelf.getByRole('combobox', { name: t('runs.take') });
    const labels = await group.locator('option').allTextContents();
    await group.selectOption({ label: labels.find((label) => label.startsWith('Area C'))! });
    await desk.take(t('runs.pin'));
    const at: Point = [7000, 10_500];
    await desk.click(chart(at));
    await desk.press(page.getByRole('button', { name: t('board.finish'), exact: true }));
    const pinned = await desk.plan();
    const jacks = [...pinned.tables.jacks.values()].filter((jack) => jack.pin !== null);
    expect(jacks.map((jack) => jack.label.charAt(0))).toEqual(jacks.map(() => 'C'));
    expect(jacks.length).toBeGreaterThan(1);
    await expect(desk.leg('runs')).toContainText(total(pinned), SOON);
    const card = page
      .getByRole('navigation', { name: t('panel.bar') })
      .getByText(t('panel.card.short'));
    await desk.press(card);
    await desk.press(desk.card.getByRole('button', { name: t('pin.free-all') }));
    await desk.press(card);
    expect((await desk.plan()).tables.pins.size).toBe(0);
    await expect(desk.leg('runs')).toContainText(total(plan), SOON);
  });
});
