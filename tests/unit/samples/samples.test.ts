import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isSample } from '../../../src/desk/sample-strip.tsx';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import { makeRow } from '../../../src/plan/plan.ts';
import { planOf } from '../../samples/plan-of.ts';
import { readSite, SITES } from '../../samples/site.ts';

const committed = (name: string): string =>
  readFileSync(new URL(`../../../public/samples/${name}.json`, import.meta.url), 'utf8');

describe.each(SITES)('the sample plan of the %s', (name) => {
  it('is what its site gives today; `npm run samples` makes it anew', () => {
    expect(committed(name)).toBe(writePlan(planOf(readSite(name))));
  });

  it('is a plan file that can be read', () => {
    expect(readPlan(committed(name), new Set(kinds.keys())).ok).toBe(true);
  });

  it('is known for a sample, and for a job of one’s own once somebody else prepares it', () => {
    const plan = planOf(readSite(name));
    expect(isSample(plan)).toBe(true);
    const own = makeRow('job', 'job', { preparedBy: 'The owner' });
    expect(isSample({ tables: { ...plan.tables, job: new Map([['job', own]]) } })).toBe(false);
  });

  it('has a jack for every cable that the site asks for, and for every spare', () => {
    const site = readSite(name);
    const asked = site.devices.reduce((sum, device) => sum + device.cables, site.spares.length);
    expect(planOf(site).tables.jacks.size).toBe(asked);
  });
});
