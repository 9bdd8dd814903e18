import { expect, test } from '@playwright/test';
import { FOOT } from '../../src/base/units.ts';
import { job } from '../../src/plan/plan.ts';
import { portsOf } from '../../src/results/ports.ts';
import { t } from '../../src/text/index.ts';
import { planOf, sampleText, surveyOf } from './core.ts';
import { openJob, SOON } from './job.ts';
import { readPdf } from './pdf.ts';

test('what the crew wrote down is typed along the schedule, and printed as the record', async ({
  page,
  context,
}) => {
  const desk = await openJob(page);
  await desk.menu(t('menu.sample-cafe'));
  const name = job(planOf(sampleText('cafe'))).name;
  await expect(page.getByRole('textbox', { name: t('job.name') })).toHaveValue(name, SOON);
  await desk.to('print');
  await desk.shelf.getByRole('button', { name: t('built.open') }).click();
  const cell = (label: string, field: 'start' | 'end' | 'length' | 'test' | 'by') =>
    desk.dialog.getByLabel(t('built.cell', { label, field: t(`built.${field}`) }), { exact: true });
  await desk.dialog.getByLabel(t('built.by'), { exact: true }).fill('KL');
  await cell('A1', 'start').focus();
  for (const keys of ['1000', 'Enter', '1200-6', 'ArrowDown', 'about 9', 'Enter'])
    await (/^[EA]/.test(keys) ? page.keyboard.press(keys) : page.keyboard.type(keys));
  // What is not understood is named at the foot, is covered by no words, stays as it was typed, and keeps the table open.
  const status = desk.dialog.getByRole('status');
  await expect(status).toHaveText(t('built.wrong', { cells: 'B1, Start mark' }));
  await cell('B1', 'end').click();
  await desk.dialog.getByRole('button', { name: t('built.done') }).click();
  await expect(status).toHaveText(t('built.held'));
  const wrong = desk.dialog.locator('[aria-invalid="true"]');
  await expect(wrong).toBeFocused();
  await expect(wrong).toHaveValue('about 9');
  await page.keyboard.press('Escape');
  await cell('A1', 'end').focus();
  for (const keys of ['1060', 'Tab', 'Tab', 'Tab', 'p', 'Enter'])
    await (/^[TE]/.test(keys) ? page.keyboard.press(keys) : page.keyboard.type(keys));
  await expect(cell('A1', 'test')).toHaveValue(t('built.pass'));
  // A typed length that the marks gainsay is said to, until it is taken back.
  await cell('A1', 'length').fill('90');
  await page.keyboard.press('Enter');
  await expect(status).toContainText(t('built.off-marks', { labels: 'A1' }));
  await cell('A1', 'length').fill('');
  await page.keyboard.press('Enter');
  await expect(status).not.toContainText(t('built.off-marks', { labels: 'A1' }));
  await desk.dialog.getByRole('button', { name: t('built.done') }).click();
  await expect(desk.dialog).toHaveCount(0);
  await expect(desk.undo()).toHaveAccessibleName(/Record A1 as built/);

  const jacks = [...(await desk.plan()).tables.jacks.values()];
  const built = (label: string) => jacks.find((jack) => jack.label === label)!.built;
  const [start, end] = [1000 * FOOT, 1060 * FOOT].map(Math.round);
  const port = portsOf(surveyOf(planOf(sampleText('cafe'))).runs).get(
    jacks.find((jack) => jack.label === 'A1')!.id,
  );
  expect(built('A1')).toMatchObject({ start, end, test: 'pass', by: 'KL', port });
  const path = await desk.downloaded(() =>
    desk.shelf.getByRole('button', { name: t('print.go') }).click(),
  );
  const printed = await readPdf(context, path);
  const record = printed.pages.find(({ text }) => text.includes('As-built record'))!.text;
  for (const words of ["1000'", "1060'", "60'", 'pass', 'KL', `Recorded: 2 of ${jacks.length}`])
    expect(record).toContain(words);

  // The list that was saved, with a line filled in, comes back: what it would change is shown first.
  const list = 'Cable,Start mark (ft),End mark (ft),Test\nA1,1000,1060,p\nB1,12-Jun,50,f\n';
  await desk.choose({ name: 'back.csv', mimeType: 'text/csv', buffer: Buffer.from(list) }, () =>
    desk.shelf.getByRole('button', { name: t('built.bring') }).click(),
  );
  await expect(desk.dialog).toContainText('Line 3: Start mark (ft) of B1 is not understood');
  await expect(desk.dialog.getByRole('row')).toHaveCount(3);
  await desk.dialog.getByRole('button', { name: t('returned.go') }).click();
  await expect(desk.undo()).toHaveAccessibleName(/Record B1 as built/);
});
