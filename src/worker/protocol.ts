import { isSame } from '../base/same.ts';
import type { SentRow } from '../plan/sent-rows.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { ClosetStudy, Finding, Run, Survey, Way } from '../results/types.ts';

/**
 * The whole wire format between the screen and the survey: one question, one answer, in order. Everything travels by
 * structured clone, which makes a new object of each row; so only what changed is sent, and what did not stays the
 * same object at the other end, where results are remembered by it.
 */

/** A question: the rows that are not as in the question before, null for one that is gone. */
export interface Ask {
  readonly id: number;
  readonly rows: readonly SentRow[];
  /** What is asked of the plan. */
  readonly want: 'survey' | 'closets' | 'ceilings';
}

/** The survey of the plan that was asked about, or why there is none. */
export type Answer =
  | { readonly id: number; readonly survey: PackedSurvey }
  | { readonly id: number; readonly closets: ClosetStudy }
  | { readonly id: number; readonly ceilings: readonly CeilingPlane[] }
  | { readonly id: number; readonly failed: string };

/**
 * A survey as it travels. Runs, ways and findings that are the same as in the answer before are named by their place
 * there: a move changes few of hundreds, and the screen draws anew only what is another object.
 */
export interface PackedSurvey extends Omit<Survey, keyof Lists> {
  readonly runs: readonly (Run | number)[];
  readonly ways: readonly (Way | number)[];
  readonly findings: readonly (Finding | number)[];
}

/** What of a survey is remembered from answer to answer. */
export type Lists = Pick<Survey, 'runs' | 'ways' | 'findings'>;

/** What is remembered before the first answer. */
export const NO_LISTS: Lists = { runs: [], ways: [], findings: [] };

/** Packs a survey against the answer before. */
export function pack(survey: Survey, before: Lists): PackedSurvey {
  return {
    ...survey,
    runs: packed(survey.runs, before.runs),
    ways: packed(survey.ways, before.ways),
    findings: packedFindings(survey.findings, before.findings),
  };
}

/** Runs and ways that did not change are the very same objects. */
function packed<T>(items: readonly T[], before: readonly T[]): (T | number)[] {
  const places = new Map(before.map((item, place) => [item, place]));
  return items.map((item) => places.get(item) ?? item);
}

/** Findings are made anew each time, so they are compared by what they say. */
function packedFindings(
  findings: readonly Finding[],
  before: readonly Finding[],
): (Finding | number)[] {
  const places = new Map(before.map((finding, place) => [subjectOf(finding), place]));
  return findings.map((finding) => {
    const place = places.get(subjectOf(finding));
    return place !== undefined && isSame(finding, before[place]) ? place : finding;
  });
}

const subjectOf = ({ rule, subjects }: Finding): string => `${rule} ${subjects[0]?.id ?? ''}`;

/** Unpacks a survey with the answer before. Throws on a place that is not there. */
export function unpack(packed: PackedSurvey, before: Lists): Survey {
  return {
    ...packed,
    runs: unpacked(packed.runs, before.runs),
    ways: unpacked(packed.ways, before.ways),
    findings: unpacked(packed.findings, before.findings),
  };
}

function unpacked<T extends object>(packed: readonly (T | number)[], before: readonly T[]): T[] {
  return packed.map((item) => {
    const found = typeof item === 'number' ? before[item] : item;
    if (!found) throw new Error(`the answer before has no place ${item}`);
    return found;
  });
}
