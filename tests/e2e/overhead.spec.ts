import { expect, test } from '@playwright/test';
import { compareLabels } from '../../src/base/labels.ts';
import { renderMessage } from '../../src/base/message.ts';
import { formatLength } from '../../src/base/units.ts';
import { CEILING_KEY } from '../../src/board/keys.ts';
import { closetWords } from '../../src/results/closet-words.ts';
import { closetStudy } from '../../src/survey/survey.ts';
import { t } from '../../src/text/index.ts';
import { planOf, sampleText, surveyOf } from './core.ts';
import { openJob, SOON } from './job.ts';

const plan = planOf(sampleText('restaurant'));

test('the ceiling plane is shown and put away by its button and its key, with a legend', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.to('runs');
  const before = await desk.board.screenshot();
  const button = desk.shelf.getByRole('button', { name: t('plane.show') });
  await button.click();
  await expect(button).toHaveAttribute('aria-pressed', 'true');
  const legend = desk.shelf.getByRole('list', { name: t('plane.legend') });
  await expect(legend).toContainText(t('plane.hard'), SOON);
  await expect(legend).toContainText(t('plane.barred'));
  await expect.poll(async () => (await desk.board.screenshot()).equals(before), SOON).toBe(false);
  await desk.board.focus();
  await page.keyboard.press(CEILING_KEY);
  await expect(button).toHaveAttribute('aria-pressed', 'false');
  await expect(legend).toHaveCount(0);
});

test('a run that is pointed at says what the search weighed, and its card says all of it', async ({
  page,
}) => {
  const [longest] = [...surveyOf(plan).runs].sort(
    (a, b) => b.cable - a.cable || compareLabels(a.label, b.label),
  );
  const cost = formatLength(longest!.cost, 'ft');
  const desk = await openJob(page);
  await desk.to('runs');
  await expect(desk.ladder).toContainText(t.count('runs.count', surveyOf(plan).runs.length), SOON);
  const strip = page.getByRole('complementary', {
    name: t('why.strip', { label: longest!.label }),
  });
  const bars = (await desk.ladder.locator('.ladder-svg').boundingBox())!;
  const axis = (await desk.ladder.locator('.ladder-floor').boundingBox())!;
  await page.mouse.move(axis.x + 6, bars.y + bars.height / 2);
  await expect(strip).toBeVisible();
  await expect(strip).toContainText(cost);
  await expect(strip).toHaveCSS('pointer-events', 'none');
  await page.mouse.click(axis.x + 6, bars.y + bars.height / 2);
  const why = desk.card.locator('details', { hasText: t('why.title') });
  await why.locator('summary').click();
  const table = why.getByRole('table', {
    name: t('why.caption', { label: longest!.label }),
  });
  await expect(table.locator('thead')).toContainText(cost);
  await expect(table.locator('tbody tr').first()).toBeVisible();
});

test('one more closet is found as the core finds it, placed, and then said to be of an older plan', async ({
  page,
}) => {
  const words = closetWords(plan, closetStudy(plan)).map((m) => renderMessage(m, 'ft'));
  const desk = await openJob(page);
  await desk.to('runs');
  await desk.shelf.getByRole('button', { name: t('second.ask') }).click();
  for (const sentence of words) await expect(desk.shelf.getByText(sentence)).toBeVisible(SOON);
  await desk.to('devices');
  await desk.to('runs');
  for (const sentence of words) await expect(desk.shelf.getByText(sentence)).toBeVisible();
  await desk.shelf.getByRole('button', { name: t('second.place') }).click();
  await expect(desk.shelf.getByText(t('second.old'))).toBeVisible();
  expect(planOf(await desk.saved()).tables.closets.size).toBe(plan.tables.closets.size + 1);
});
