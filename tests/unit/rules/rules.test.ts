import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Message, renderMessage } from '../../../src/base/message.ts';
import { apply } from '../../../src/plan/change.ts';
import type { Command } from '../../../src/plan/commands/command.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { TABLES } from '../../../src/plan/schema.ts';
import { rules } from '../../../src/rules/index.ts';
import type { Remark, Rule, RuleContext } from '../../../src/rules/rule.ts';
import type { FailingCase, RuleCases } from './case.ts';

/** Files of the folder that are no rules: the contract, the registry and what rules share. */
const SHARED = ['index', 'rule', 'sources', 'spots', 'walls', 'ducts', 'words'];

const casesOf = new Map<string, RuleCases>();
for (const rule of rules) {
  const path = `tests/unit/rules/${rule.id}.cases.ts`;
  if (!existsSync(path)) continue;
  casesOf.set(rule.id, ((await import(`./${rule.id}.cases.ts`)) as { cases: RuleCases }).cases);
}

const inFeet = (message: Message) => renderMessage(message, 'ft');

describe('the registry of rules', () => {
  it('holds every rule of the folder once, named after its file', () => {
    const files = readdirSync('src/rules')
      .map((file) => file.replace(/\.ts$/, ''))
      .filter((name) => !SHARED.includes(name));
    expect(rules.map((rule) => rule.id).sort()).toEqual(files.sort());
  });

  it('has cases for every rule', () => {
    expect([...casesOf.keys()]).toEqual(rules.map((rule) => rule.id));
  });
});

describe.each(rules.map((rule) => ({ rule, id: rule.id })))('$id', ({ rule }) => {
  const cases = casesOf.get(rule.id)!;

  it('names its source, and a clause unless there is no source', () => {
    expect(rule.source.document).not.toBe('');
    expect(rule.source.clause !== '').toBe(rule.source.document !== 'common practice, no source');
    for (const limit of rule.limits) expect(limit.clause).not.toBe('');
  });

  it('is tried on something that passes and something that fails', () => {
    expect(cases.pass.length).toBeGreaterThan(0);
    expect(cases.fail.length).toBeGreaterThan(0);
  });

  it.each(cases.pass)('passes $what', ({ on }) => {
    expect(rule.check(on)).toEqual([]);
  });

  it.each(cases.fail)('finds $what', (failing) => {
    const found = rule.check(failing.on);
    expect(found.map((remark) => inFeet(remark.message))).toEqual(failing.says);
    const remedies = found.map((remark) => inFeet(remark.remedy));
    failing.tells?.forEach((words, i) => {
      expect(remedies[i]).toContain(words);
    });
    if (failing.at !== undefined) expect(found[0]!.at?.point ?? null).toEqual(failing.at);
  });

  it('is tried on both sides of each of its limits', () => {
    expect(Object.keys(cases.limits)).toEqual(rule.limits.map((limit) => limit.name));
    for (const { within, beyond } of Object.values(cases.limits)) {
      expect(rule.check(within)).toEqual([]);
      expect(rule.check(beyond).length).toBeGreaterThan(0);
    }
  });

  it('speaks plainly: every gap filled, whole sentences, no exclamation', () => {
    for (const remark of allRemarks(rule, cases)) {
      const words = [remark.message, remark.remedy].map(inFeet);
      for (const text of words) {
        expect(text).toMatch(/^[A-Z].*\.$/);
        expect(text).not.toMatch(/[{}!]|undefined|null|NaN/);
      }
    }
  });

  it('points at rows that are there, and gives plain data', () => {
    for (const failing of cases.fail)
      for (const remark of rule.check(failing.on)) expectPlainAndPresent(remark, failing);
  });

  it('offers to mend only what the command then mends', () => {
    for (const failing of cases.fail)
      for (const remark of rule.check(failing.on))
        if (remark.fix) expectMended(rule, remark, failing.on);
  });
});

const allRemarks = (rule: Rule, cases: RuleCases): Remark[] =>
  cases.fail.flatMap((failing) => rule.check(failing.on));

function expectPlainAndPresent(remark: Remark, { on }: FailingCase): void {
  expect(JSON.parse(JSON.stringify(remark))).toEqual(remark);
  for (const { table } of remark.subjects) expect(TABLES).toContain(table);
  const known = remark.subjects.filter(({ table, id }) => on.plan.tables[table].has(id));
  // Jacks of made-up runs stand in the runs only.
  const ofRuns = remark.subjects.filter(
    ({ table, id }) => table === 'jacks' && on.runs.some((run) => run.jack === id),
  );
  expect(new Set([...known, ...ofRuns]).size).toBe(remark.subjects.length);
  if (remark.at) expect(on.plan.tables.levels.has(remark.at.level)).toBe(true);
}

/** Carries the offered command out and asks the rule again. */
function expectMended(rule: Rule, remark: Remark, on: RuleContext): void {
  const { command, args } = remark.fix!;
  const run = (commands as Readonly<Record<string, Command<never>>>)[command]!;
  const outcome = run(on.plan, args as never, { kinds: on.kinds });
  if (!outcome.ok) throw new Error(inFeet(outcome.why));
  const after = { ...on, plan: apply(on.plan, outcome.changes) };
  const left = rule.check(after).map((r) => inFeet(r.message));
  expect(left).not.toContain(inFeet(remark.message));
}
