import { readFileSync } from 'node:fs';
import { PDFDocument } from '@cantoo/pdf-lib';
import { expect, type Page, type Route, test } from '@playwright/test';
import { t } from '../../src/text/index.ts';
import { issueOf, sampleText } from './core.ts';
import { type Brought, type Job, openJob, SOON } from './job.ts';
import { scannedPlan } from './picture.ts';

const json = (text: string): Brought => ({
  name: 'job.json',
  mimeType: 'application/json',
  buffer: Buffer.from(text),
});

const cafe = sampleText('cafe');

/** Plan files that cannot be opened, and why. */
const BAD_JOBS: Readonly<Record<string, string>> = {
  'text that is no plan at all': '{Dear customer,',
  'a file that was cut short': cafe.slice(0, 2000),
  'a plan of a newer version': cafe.replace('"version": 1', '"version": 99'),
  'another program’s file': '{"type":"drawing","elements":[]}',
  'a field that nobody knows': cafe.replace('"job": {', '"job": {"colour":"red",'),
  'a length that is no number': cafe.replace(/"deck":\d+/, '"deck":"high"'),
};

/** Renames the job, so that there is something to lose. */
async function rename(desk: Job, name: string): Promise<void> {
  const field = desk.page.getByRole('textbox', { name: t('job.name') });
  await field.fill(name);
  await field.press('Enter');
  await expect(desk.undo()).toBeEnabled();
}

const kept = (page: Page) => expect(page.getByText(/^saved on this device/)).toBeVisible(SOON);

test('no bad job file harms the open job, and each says what is wrong', async ({ page }) => {
  const desk = await openJob(page);
  await rename(desk, 'Mine');
  const mine = await desk.saved();
  for (const [what, text] of Object.entries(BAD_JOBS)) {
    await test.step(what, async () => {
      await desk.openFile(json(text));
      await expect(desk.notices).toContainText(issueOf(text), SOON);
      expect(await desk.saved()).toBe(mine);
      for (const shut of await desk.notices.getByRole('button').all()) await shut.click();
    });
  }
});

test('no bad picture harms the open job, and each says so', async ({ page }) => {
  const desk = await openJob(page);
  await rename(desk, 'Mine');
  const mine = await desk.saved();
  const scan = scannedPlan();
  const pdf = readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url));
  const locked = await PDFDocument.create();
  locked.addPage([200, 200]);
  locked.encrypt({ userPassword: 'sesame', ownerPassword: 'open' });
  const bad: readonly Brought[] = [
    { name: 'locked.pdf', mimeType: 'application/pdf', buffer: Buffer.from(await locked.save()) },
    { name: 'cut.png', mimeType: 'image/png', buffer: scan.subarray(0, 60) },
    { name: 'cut.pdf', mimeType: 'application/pdf', buffer: pdf.subarray(0, 5000) },
    { name: 'words.png', mimeType: 'image/png', buffer: Buffer.from('this is no picture') },
    { name: 'empty.pdf', mimeType: 'application/pdf', buffer: Buffer.alloc(0) },
    { name: 'letter.txt', mimeType: 'text/plain', buffer: Buffer.from('Dear customer,') },
  ];
  await desk.to('base');
  for (const file of bad) {
    await test.step(file.name, async () => {
      await desk.choose(file, () =>
        desk.shelf.getByRole('button', { name: t('base.choose') }).click(),
      );
      await expect(desk.notices.getByText(`“${file.name}” is`)).toHaveCount(1, SOON);
      if (file.name === 'locked.pdf')
        await expect(desk.notices).toContainText(
          'locked with a password. Print it to a new PDF without one',
        );
      expect(await desk.saved()).toBe(mine);
    });
  }
});

for (const [what, met] of [
  ['does not come', (route: Route) => route.abort()],
  [
    'finds no parser',
    async (route: Route) => {
      const response = await route.fetch();
      const body = (await response.text()).replace(/pdf\.worker\.min[\w-]+\.mjs/, 'gone.mjs');
      await route.fulfill({ response, body });
    },
  ],
] as const)
  test(`a reader for PDFs that ${what} harms nothing, and is said to have stopped`, async ({
    page,
  }) => {
    const desk = await openJob(page);
    await rename(desk, 'Mine');
    const mine = await desk.saved();
    await page.route('**/assets/pdf-entry*', met);
    await desk.to('base');
    const buffer = readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url));
    await desk.choose({ name: 'plan.pdf', mimeType: 'application/pdf', buffer }, () =>
      desk.shelf.getByRole('button', { name: t('base.choose') }).click(),
    );
    await expect(desk.notices).toContainText(
      'The reader for PDFs stopped before it was done',
      SOON,
    );
    expect(await desk.saved()).toBe(mine);
  });

test('a page that is closed in the middle of a drag keeps the last whole step', async ({
  page,
  context,
}) => {
  const desk = await openJob(page);
  const plan = await desk.plan();
  await rename(desk, 'Mine');
  await kept(page);
  const mine = await desk.saved();
  const chart = await desk.fit(plan);
  const at = chart([...plan.tables.closets.values()][0]!.at);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 60, at.y + 20, { steps: 4 });
  await page.close();
  const next = await openJob(await context.newPage());
  expect(await next.saved()).toBe(mine);
  await expect(next.undo()).toBeEnabled();
});

test('a page that is closed right after a step has it when it comes back', async ({
  page,
  context,
}) => {
  const desk = await openJob(page);
  await rename(desk, 'One');
  await rename(desk, 'Two');
  await kept(page);
  await page.close({ runBeforeUnload: false });
  const next = await openJob(await context.newPage());
  await expect(next.page.getByRole('textbox', { name: t('job.name') })).toHaveValue('Two');
  await next.undo().click();
  await expect(next.page.getByRole('textbox', { name: t('job.name') })).toHaveValue('One');
});
