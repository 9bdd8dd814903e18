import { connectors } from './connectors.ts';
import { growth } from './growth.ts';
import { writePage } from './page.ts';
import { finders, searches } from './searches.ts';
import { graphOf, office, steps, surveys } from './surveys.ts';
import { inText, type Section } from './table.ts';

/**
 * How fast the routes and the surveys are: `npm run bench` prints tables, `npm run bench -- --write` puts them into
 * docs/performance.md as well, `npm run bench -- growth surveys` takes some of them only.
 *
 * Absolute times depend on the machine; the ratios are taken within one process and depend on it much less.
 */
const all: Readonly<Record<string, () => Promise<Section>>> = {
  searches: () => searches(graphOf(office)),
  finders,
  connectors,
  steps,
  surveys,
  growth,
};

const args = process.argv.slice(2);
const named = args.filter((arg) => arg !== '--write');
const unknown = named.find((name) => !(name in all));
if (unknown !== undefined)
  throw new Error(`no table ${unknown}; there are ${Object.keys(all).join(', ')}`);

const sections: Section[] = [];
for (const name of named.length > 0 ? named : Object.keys(all)) {
  const start = performance.now();
  const section = await all[name]!();
  sections.push(section);
  console.log(inText(section));
  console.log(`  (${((performance.now() - start) / 1000).toFixed(0)} s)`);
}
if (args.includes('--write')) writePage(sections, new Date().toISOString().slice(0, 10));
