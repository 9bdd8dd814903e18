import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatLength } from '../../../src/base/units.ts';
import { emptyPlan, settings } from '../../../src/plan/plan.ts';
import { rules } from '../../../src/rules/index.ts';
import type { Limit, Rule } from '../../../src/rules/rule.ts';

const LENGTHS = ['linkLimit', 'channelLimit', 'powerReach', 'boxLength'];

function valueText({ value }: Limit): string {
  if (typeof value === 'string') return value;
  const standard = settings(emptyPlan())[value.setting];
  if (!LENGTHS.includes(value.setting)) return `${standard} % (setting)`;
  return `${formatLength(standard, 'm')}, ${formatLength(standard, 'ft')} (setting)`;
}

function section(rule: Rule): string {
  const { document, clause } = rule.source;
  const lines = [
    `## ${rule.title.text}`,
    '',
    `\`${rule.id}\`, ${rule.severity}. Source: ${document}${clause === '' ? '' : `, ${clause}`}.`,
  ];
  if (rule.limits.length === 0) return lines.join('\n');
  const rows = rule.limits.map((l) => `| ${l.name} | ${valueText(l)} | ${l.clause} |`);
  return [...lines, '', '| limit | value | clause |', '| --- | --- | --- |', ...rows].join('\n');
}

const page = `# What the survey checks

Made from the rules in \`src/rules\` by \`tests/unit/rules/catalogue.test.ts\`; write it anew with
\`npx vitest run tests/unit/rules/catalogue.test.ts -u\`. A value at its limit passes and one beyond
it is found, where the row does not say otherwise. Values marked as a setting are the defaults of a new plan. The sources stand in [sources.md](sources.md).

An error has to be mended before the plan can be built, a warning is worth a look, a note is to know.

${rules.map(section).join('\n\n')}
`;

describe('the catalogue of rules', () => {
  it('is made from the rules as they stand', async () => {
    await expect(page).toMatchFileSnapshot('../../../docs/rules.md');
  });

  it('shows each setting as the length or percentage that it is', () => {
    expect(page).toContain('| cable | 90.00 m, 295\'-3" (setting) |');
    expect(page).toContain('| share of the limit, found from there on | 90 % (setting) |');
  });
});

describe('the page of sources', () => {
  it('has every document that a rule names', () => {
    const sources = readFileSync('docs/sources.md', 'utf8');
    for (const rule of rules) expect(sources).toContain(rule.source.document);
  });
});
