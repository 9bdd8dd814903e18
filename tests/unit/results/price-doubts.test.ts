import { expect, test } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { type Prices, prices } from '../../../src/plan/plan.ts';
import { priceDoubts } from '../../../src/results/price-doubts.ts';
import { step } from '../plan/steps.ts';
import { samplePlan, surveyOf } from '../sheets/sample-site.ts';

const plan = samplePlan();
const survey = surveyOf(plan);
const said = (fields: Partial<Prices>, lost = 0): string[] => {
  const typed = step(plan, 'edit', { table: 'prices', id: 'prices', fields });
  const runs = survey.runs.map((run, i) =>
    i < lost ? { ...run, status: 'unroutable' as const } : run,
  );
  return priceDoubts(typed, { ...survey, runs }).map((doubt) => renderMessage(doubt, 'ft'));
};

/** A price of everything, each a cent more than at first. */
const ownPrices = (): Partial<Prices> =>
  Object.fromEntries(
    Object.entries(prices(plan))
      .filter(([, value]) => typeof value === 'number')
      .map(([name, value]) => [name, name.endsWith('Percent') ? value : Number(value) + 1]),
  );

test('a price is made up until every price in it is typed', () => {
  expect(said({})).toEqual(['All prices here are made up until somebody types the real ones.']);
  expect(said({ jack: 1 })[0]).toMatch(/^\d+ of \d+ prices here are still made up\.$/);
  expect(said(ownPrices())).toEqual([]);
});

test('a price that nothing in the job costs needs no typing', () => {
  const used = new Set(survey.price.lines.map(({ part }) => part));
  const unused = (['racewayLength', 'trayLength', 'panel24', 'seal', 'pole'] as const).filter(
    (part) => !used.has(part),
  );
  expect(unused.length).toBeGreaterThan(0);
  for (const part of unused)
    expect(said({ ...ownPrices(), [part]: prices(plan)[part] })).toEqual([]);
  expect(said({ ...ownPrices(), labourHour: prices(plan).labourHour })).toHaveLength(1);
});

test('runs without a way home are said first, since their cable is not in it', () => {
  expect(said(ownPrices(), 1)).toEqual([
    '1 run has no way home: its cable and hours are not in this price.',
  ]);
  expect(said({}, 2)[0]).toBe(
    '2 runs have no way home: their cable and hours are not in this price.',
  );
});
