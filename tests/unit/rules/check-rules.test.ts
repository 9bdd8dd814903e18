import { describe, expect, it } from 'vitest';
import { msg, renderMessage } from '../../../src/base/message.ts';
import type { Severity } from '../../../src/results/types.ts';
import { checkRules } from '../../../src/rules/index.ts';
import type { Rule } from '../../../src/rules/rule.ts';
import { noWay } from '../takeoff/make-run.ts';
import { context } from './case.ts';

const rule = (id: string, severity: Severity, check: Rule['check']): Rule => ({
  id,
  title: msg('Title of {id}'),
  severity,
  source: { document: 'Standard', clause: '1.2' },
  limits: [],
  check,
});

const finds =
  (words: string): Rule['check'] =>
  () => [{ subjects: [], at: null, message: msg(words), remedy: msg('Mend it.'), fix: null }];

describe('checking the rules', () => {
  it('gives each finding the name, severity and source of its rule', () => {
    const [finding] = checkRules(context({}), [rule('a', 'note', finds('Found.'))]);
    expect(finding).toMatchObject({ rule: 'a', severity: 'note', source: 'Standard, 1.2' });
  });

  it('names a source without a clause alone', () => {
    const bare = { ...rule('a', 'note', finds('x')), source: { document: 'Practice', clause: '' } };
    expect(checkRules(context({}), [bare])[0]!.source).toBe('Practice');
  });

  it('lists errors first, then warnings, then notes, each in the order of the rules', () => {
    const found = checkRules(context({}), [
      rule('n', 'note', finds('1')),
      rule('w', 'warning', finds('2')),
      rule('e1', 'error', finds('3')),
      rule('e2', 'error', finds('4')),
    ]);
    expect(found.map((finding) => finding.rule)).toEqual(['e1', 'e2', 'w', 'n']);
  });

  it('turns a rule that throws into one visible finding and lets the others stand', () => {
    const broken = rule('broken', 'note', () => {
      throw new Error('no such table');
    });
    const found = checkRules(context({}), [broken, rule('whole', 'note', finds('Found.'))]);
    expect(found.map((finding) => finding.rule)).toEqual(['broken', 'whole']);
    expect(found[0]!.severity).toBe('error');
    expect(renderMessage(found[0]!.message, 'ft')).toContain('no such table');
  });

  it('finds nothing on an empty plan', () => {
    expect(checkRules(context({}))).toEqual([]);
  });

  it('says once that no closet stands, however many jacks wait for it', () => {
    const on = context(
      {
        outlets: { O1: { level: 'L1', at: [0, 0] } },
        jacks: {
          J1: { outlet: 'O1', label: 'A1', spare: true },
          J2: { outlet: 'O1', label: 'A2', spare: true },
        },
      },
      ['A1', 'A2'].map((label) => noWay({ label, closet: null })),
    );
    expect(checkRules(on).map((finding) => finding.rule)).toEqual(['closet-missing']);
  });
});
