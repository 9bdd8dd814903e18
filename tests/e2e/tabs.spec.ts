import { expect, test } from '@playwright/test';
import { t } from '../../src/text/index.ts';
import { Job, openJob, SOON } from './job.ts';

async function rename(desk: Job, name: string): Promise<void> {
  const field = desk.page.getByRole('textbox', { name: t('job.name') });
  await field.fill(name);
  await field.press('Enter');
  await expect(desk.page.getByText(/^saved on this device/)).toBeVisible(SOON);
}

const nameIn = (desk: Job) => desk.page.getByRole('textbox', { name: t('job.name') });

test('a second tab says so and leaves the job alone, and the first one goes on', async ({
  page,
  context,
}) => {
  const first = await openJob(page);
  await rename(first, 'The job of the first tab');

  const second = await context.newPage();
  await second.goto('./');
  await expect(
    second.getByRole('heading', { name: 'This job is open in another tab' }),
  ).toBeVisible(SOON);
  await expect(second.getByRole('application')).toHaveCount(0);

  await page.bringToFront();
  await rename(first, 'The first tab goes on');
  await page.close();
  await second.close();
  const next = await openJob(await context.newPage());
  await expect(nameIn(next)).toHaveValue('The first tab goes on');
});

test('a second tab can take the job over with every finished step, and the first one stops', async ({
  page,
  context,
}) => {
  const first = await openJob(page);
  await rename(first, 'Begun in the first tab');

  const other = await context.newPage();
  await other.goto('./');
  await other.getByRole('button', { name: 'Work here instead' }).click();
  const second = new Job(other);
  await second.stands();
  await expect(nameIn(second)).toHaveValue('Begun in the first tab');
  await expect(page.getByRole('heading', { name: 'This job went on in another tab' })).toBeVisible(
    SOON,
  );
  await expect(first.board).toHaveCount(0);

  await rename(second, 'Gone on in the second tab');
  await page.close();
  await other.close();
  const next = await openJob(await context.newPage());
  await expect(nameIn(next)).toHaveValue('Gone on in the second tab');
});
