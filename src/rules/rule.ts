import type { Id } from '../base/ids.ts';
import type { Message } from '../base/message.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan, Settings } from '../plan/plan.ts';
import type { BoxPlan, Finding, Run, Severity, Way } from '../results/types.ts';

/** What a rule may look at; it never calls an engine. */
export interface RuleContext {
  readonly plan: Plan;
  readonly kinds: KindRegistry;
  readonly runs: readonly Run[];
  /** Stretches that cables share. */
  readonly ways: readonly Way[];
  readonly boxPlan: BoxPlan;
  /** Levels on which the search could not try every way. */
  readonly inexact: readonly Id[];
}

/** Where a rule comes from. */
export interface RuleSource {
  /** A published standard or handbook with its edition, or `common practice, no source`. */
  readonly document: string;
  /** Empty where there is none. */
  readonly clause: string;
}

/** A value that the rule compares with: where it stands in the plan, or a fixed one, and its clause. */
export interface Limit {
  readonly name: string;
  /** A field of the settings, whose default the catalogue shows, or the fixed value in words. */
  readonly value: { readonly setting: Exclude<keyof Settings, 'id'> } | string;
  readonly clause: string;
}

/** What a rule says of one thing; the registry adds the rule's name, severity and source. */
export type Remark = Omit<Finding, 'rule' | 'severity' | 'source'>;

/**
 * One thing that the survey checks. A file in this folder and a line in `index.ts`.
 *
 * `check` returns what it found; the words live beside it in the same file. It never throws on a user's data.
 */
export interface Rule {
  readonly id: string;
  readonly title: Message;
  readonly severity: Severity;
  readonly source: RuleSource;
  readonly limits: readonly Limit[];
  check(context: RuleContext): readonly Remark[];
}
