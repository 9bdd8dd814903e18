import { expect, test } from '@playwright/test';
import { Job } from './job.ts';

/** The program apart from the page's first script. */
const PROGRAM = /\/assets\/main-.*\.js$/;

test('the empty desk is painted in its theme before the program has come, and nothing moves when it has', async ({
  page,
}) => {
  let comes = () => {};
  const held = new Promise<void>((done) => {
    comes = done;
  });
  await page.route(PROGRAM, async (route) => {
    await held;
    await route.continue();
  });
  await page.addInitScript(() => localStorage.setItem('theme', 'dark'));
  await page.goto('./', { waitUntil: 'commit' });
  await expect(page.getByRole('status')).toHaveText('Opening the job …');
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
  await expect
    .poll(() => page.evaluate(() => performance.getEntriesByName('first-contentful-paint').length))
    .toBe(1);
  const parts = ['.job-line', '.shelf', '.bench', '.ladder-frame', '.card'];
  const places = () => Promise.all(parts.map((part) => page.locator(part).boundingBox()));
  const before = await places();
  comes();
  await new Job(page).stands();
  expect(await places()).toEqual(before);
  await expect(page.getByText('Opening the job …')).toHaveCount(0);
});

test('a page whose program does not come says so', async ({ page }) => {
  await page.route(PROGRAM, (route) => route.abort());
  await page.goto('./');
  await expect(page.getByRole('status')).toHaveText('Not all of the page has come. Reload it.');
});
