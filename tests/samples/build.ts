import { writeFileSync } from 'node:fs';
import { writePlan } from '../../src/plan/codec.ts';
import { planOf } from './plan-of.ts';
import { readSite, SITES } from './site.ts';

for (const name of SITES) {
  const file = new URL(`../../public/samples/${name}.json`, import.meta.url);
  writeFileSync(file, writePlan(planOf(readSite(name))));
}
