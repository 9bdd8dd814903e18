import { settings } from '../../../src/plan/plan.ts';
import type { Run, Way } from '../../../src/results/types.ts';
import type { RuleContext } from '../../../src/rules/rule.ts';
import { boxPlan } from '../../../src/takeoff/box-plan.ts';
import { planWith, type Rows } from '../takeoff/make-run.ts';
import { testKinds } from './test-kinds.ts';

/** What a rule is tried on, and the words that it answers with in feet; none where it finds nothing. */
export interface RuleCase {
  readonly what: string;
  readonly on: RuleContext;
}

export interface FailingCase extends RuleCase {
  /** The messages, as an owner reads them in a job in feet and inches. */
  readonly says: readonly string[];
  /** Words of the remedies, one for each finding, where they depend on what was found. */
  readonly tells?: readonly string[];
  /** Where the first finding is shown on its level, or null. */
  readonly at?: readonly [number, number] | null;
}

/** What every rule has beside its test: cases that pass, that fail, and that stand on both sides of each limit. */
export interface RuleCases {
  readonly pass: readonly RuleCase[];
  readonly fail: readonly FailingCase[];
  readonly limits: Readonly<
    Record<string, { readonly within: RuleContext; readonly beyond: RuleContext }>
  >;
}

/** A context from rows, runs and ways, with the box plan that belongs to them. */
export function context(
  rows: Rows,
  runs: readonly Run[] = [],
  ways: readonly Way[] = [],
): RuleContext {
  const plan = planWith(rows);
  const boxes = boxPlan(runs, settings(plan).boxLength);
  return { plan, kinds: testKinds, runs, ways, boxPlan: boxes, inexact: [] };
}
