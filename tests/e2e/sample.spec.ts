import { expect, test } from '@playwright/test';
import { formatTotal } from '../../src/base/units.ts';
import { job } from '../../src/plan/plan.ts';
import { formatMoneyShort } from '../../src/text/index.ts';
import { planOf, sampleText, surveyOf } from './core.ts';
import { openJob, SOON } from './job.ts';

test('the first visit opens the sample restaurant, measured as the core measures it', async ({
  page,
}) => {
  const plan = planOf(sampleText('restaurant'));
  const survey = surveyOf(plan);
  const { tables } = plan;
  const desk = await openJob(page);
  await expect(desk.leg('runs')).toContainText(formatTotal(survey.totals.cable, 'ft'), SOON);
  await expect(page.getByRole('textbox', { name: 'Name of the job' })).toHaveValue(job(plan).name);
  expect(await desk.figure('rooms')).toBe(String(tables.zones.size));
  expect(await desk.figure('devices')).toBe(`${tables.devices.size} · ${tables.jacks.size} jacks`);
  const fix = survey.findings.filter((f) => f.severity === 'error').length;
  const look = survey.findings.filter((f) => f.severity === 'warning').length;
  expect(await desk.figure('checks')).toBe(
    fix > 0 ? `${fix} to fix` : look > 0 ? `${look} to look at` : 'all clear',
  );
  expect(await desk.figure('price')).toBe(
    formatMoneyShort(survey.price.totalCents, survey.price.currency),
  );
  // Every run stands in the ladder with the core's length.
  const rows = await desk.ladderRows();
  expect(rows.length).toBe(survey.runs.length);
});
