import { apply, compose, invert, type Transaction } from './change.ts';
import type { Plan } from './plan.ts';

/** A plan with the steps that led to it and those that were taken back. */
export interface History {
  readonly plan: Plan;
  readonly steps: readonly Transaction[];
  /** Number of steps in force; those beyond can be redone. */
  readonly cursor: number;
}

/** Steps that are kept; older ones can no longer be undone. */
export const DEPTH = 500;

/** A plan that nobody has changed yet. */
export const startHistory = (plan: Plan): History => ({ plan, steps: [], cursor: 0 });

/**
 * Carries a step out. Steps that were taken back are forgotten; a step with the merge key of the last one joins it,
 * so that a row of nudges is one step; a step that changes nothing is none, nor is one that came back to where it began.
 */
export function commit(history: History, step: Transaction): History {
  if (step.changes.length === 0) return history;
  const plan = apply(history.plan, step.changes);
  const kept = history.steps.slice(0, history.cursor);
  const last = kept.at(-1);
  if (last && step.merge !== undefined && last.merge === step.merge) {
    const changes = compose(last.changes, step.changes);
    const steps = [...kept.slice(0, -1), ...(changes.length === 0 ? [] : [{ ...last, changes }])];
    return { plan, steps, cursor: steps.length };
  }
  const steps = [...kept, step].slice(-DEPTH);
  return { plan, steps, cursor: steps.length };
}

/** The step that `undo` would take back. */
export const undoable = (history: History): Transaction | null =>
  history.steps[history.cursor - 1] ?? null;
/** The step that `redo` would carry out again. */
export const redoable = (history: History): Transaction | null =>
  history.steps[history.cursor] ?? null;

/** Takes the last step back; where there is none, nothing changes. */
export function undo(history: History): History {
  const step = undoable(history);
  if (!step) return history;
  return {
    ...history,
    plan: apply(history.plan, invert(step.changes)),
    cursor: history.cursor - 1,
  };
}

/** Takes steps back or carries them out again until so many are in force; as many as there are beyond that. */
export function walkTo(history: History, cursor: number): History {
  let now = history;
  while (now.cursor > Math.max(0, cursor)) now = undo(now);
  while (now.cursor < Math.min(now.steps.length, cursor)) now = redo(now);
  return now;
}

/** Carries the step that was taken back out again; where there is none, nothing changes. */
export function redo(history: History): History {
  const step = redoable(history);
  if (!step) return history;
  return { ...history, plan: apply(history.plan, step.changes), cursor: history.cursor + 1 };
}
