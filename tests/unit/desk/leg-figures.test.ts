import { expect, test } from 'vitest';
import { legFigures } from '../../../src/desk/leg-figures.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import type { Survey } from '../../../src/results/types.ts';
import { finding, part, runOf, Site, smallSite, surveyOf } from './site.ts';

const say = (plan: Plan, survey: Survey | null = null, pages: number | null = null) =>
  Object.fromEntries(
    legFigures({ plan, survey, pages }).map((f) => [f.leg, `${f.figure} (${f.tone})`]),
  );

const picture = (site: Site) =>
  site.run('add-background', {
    level: 'L1',
    name: 'Plan',
    asset: '0123456789abcdef',
    width: 2000,
    height: 1000,
  });

test('a blank job has a blank sheet and nothing to say of checks and price', () => {
  expect(say(emptyPlan(), surveyOf([]), 3)).toEqual({
    base: 'blank sheet (plain)',
    rooms: '0 (plain)',
    devices: '0 (plain)',
    runs: '- (plain)',
    checks: '- (plain)',
    price: '- (plain)',
    print: '- (plain)',
  });
});

test('a drawn job says its rooms, devices with jacks, total cable, price and sheets', () => {
  const run = runOf('J1', 'A1', [part('across', 304_800)]);
  const figures = say(smallSite().plan, surveyOf([run]), 1);
  expect(figures).toEqual({
    base: 'drawn to scale (plain)',
    rooms: '1 (plain)',
    devices: '2 · 2 jacks (plain)',
    runs: '1,000 ft (plain)',
    checks: 'all clear (good)',
    price: '$9,840 (plain)',
    print: '1 sheet (plain)',
  });
});

test('while nothing is placed neither checks nor price say that all is well', () => {
  const drawn = new Site().run('draw-zone', {
    level: 'L1',
    outline: [
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ],
  });
  const priced = (totalCents: number) => {
    const survey = surveyOf([]);
    return { ...survey, price: { ...survey.price, totalCents } };
  };
  const { checks, price } = say(drawn.plan, priced(0));
  expect([checks, price]).toEqual(['nothing placed (plain)', 'nothing placed (plain)']);
  // A hole that is drawn alone may still cost something, and a finding is still said.
  expect(say(drawn.plan, priced(9900)).price).toBe('$99 (plain)');
  const warned = surveyOf([], [finding({ severity: 'warning' })]);
  expect(say(drawn.plan, warned).checks).toBe('1 to look at (todo)');
});

test('in metres the total cable is in metres', () => {
  const site = smallSite().run('edit', { table: 'job', id: 'job', fields: { units: 'm' } });
  const run = runOf('J1', 'A1', [part('across', 304_800)]);
  expect(say(site.plan, surveyOf([run])).runs).toBe('305 m (plain)');
});

test('one jack is one jack', () => {
  const site = new Site().run('place-device', { level: 'L1', kind: 'order-station', at: [0, 0] });
  expect(say(site.plan).devices).toBe('1 · 1 jack (plain)');
});

test('what must be fixed outweighs what is to look at, and notes count as clear', () => {
  const { plan } = smallSite();
  const of = (...severities: ('error' | 'warning' | 'note')[]) =>
    say(
      plan,
      surveyOf(
        [],
        severities.map((severity) => finding({ severity })),
      ),
    ).checks;
  expect(of('error', 'error', 'warning')).toBe('2 to fix (warn)');
  expect(of('warning', 'note')).toBe('1 to look at (todo)');
  expect(of('note')).toBe('all clear (good)');
});

test('a run without a way marks length and price, since they are not the whole', () => {
  const lost = runOf('J1', 'A1', [], { status: 'unroutable' });
  const figures = say(smallSite().plan, surveyOf([lost]));
  expect(figures.runs).toBe('0 ft (warn)');
  expect(figures.price).toMatch(/ \(warn\)$/);
});

test('a picture asks for its scale, then says that it is set, and after a check how far off it is', () => {
  const site = picture(new Site());
  expect(say(site.plan).base).toBe('set the scale (todo)');
  site.run('set-scale', { background: 'B1', a: [0, 0], b: [10_000, 0], length: 10_000 });
  expect(say(site.plan).base).toBe('scale set (plain)');
  site.run('check-scale', { background: 'B1', a: [0, 0], b: [0, 5000], length: 5010 });
  expect(say(site.plan).base).toBe('right to 0.2 % (good)');
  site.run('check-scale', { background: 'B1', a: [0, 0], b: [0, 5000], length: 5500 });
  expect(say(site.plan).base).toBe('off by 9.1 % (warn)');
});

test('with several pictures the one without a scale comes first', () => {
  const site = picture(picture(new Site()));
  site.run('set-scale', { background: 'B1', a: [0, 0], b: [10_000, 0], length: 10_000 });
  expect(say(site.plan).base).toBe('set the scale (todo)');
});
