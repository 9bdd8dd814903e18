import type { Point } from '../geometry/point.ts';
import { pointsOf } from '../plan/commands/move-point.ts';
import { type Plan, type Ref, refKey } from '../plan/plan.ts';
import type { SessionApi } from './session.ts';

/** A copy without a place to go lies this far aside, mm. */
const ASIDE = 600;

const levelsOf = (plan: Plan, refs: readonly Ref[]): string[] =>
  refs.flatMap((ref) => {
    const row = plan.tables[ref.table].get(ref.id) as { level?: string } | undefined;
    return row?.level ?? [];
  });

const sameRefs = (a: readonly Ref[], b: readonly Ref[]): boolean =>
  a.length > 0 && a.length === b.length && a.every((ref, i) => refKey(ref) === refKey(b[i]!));

/** The middle of the box round rows; null where they have no places. */
function middleOfRefs(plan: Plan, refs: readonly Ref[]): Point | null {
  const places = refs.flatMap((ref) => {
    const points = pointsOf(plan, ref);
    const row = plan.tables[ref.table].get(ref.id) as { at?: Point } | undefined;
    return points.length > 0 ? points : row?.at ? [row.at] : [];
  });
  if (places.length === 0) return null;
  const mid = (axis: 0 | 1) => {
    const all = places.map((p) => p[axis]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  return [mid(0), mid(1)];
}

/** Copying, pasting and repeating what is selected. Each answers whether it meant something. */
export interface Copies {
  copy(): boolean;
  paste(): boolean;
  repeat(): boolean;
  forget(): void;
}

/** @param pointer where a pasted copy goes, mm; null where nobody points */
export function createCopies(session: SessionApi, pointer: () => Point | null): Copies {
  let copied: readonly Ref[] = [];
  /** The last copy that was repeated, and of what. */
  let lastCopy: { readonly from: readonly Ref[]; readonly to: readonly Ref[] } = {
    from: [],
    to: [],
  };

  const state = () => session.getState();

  const copy = (): boolean => {
    const { selection } = state();
    if (selection.length === 0) return false;
    copied = selection;
    return true;
  };

  /** Copies of what was copied, on the open level, at the pointer; without one, a step aside. */
  const paste = (): boolean => {
    const { history, actions, level } = state();
    const refs = copied.filter((ref) => history.plan.tables[ref.table].has(ref.id));
    const middle = middleOfRefs(history.plan, refs);
    if (!middle) return false;
    const to = pointer();
    const here = levelsOf(history.plan, refs).every((id) => id === level);
    // On another level it goes where it stood, unless somebody points elsewhere.
    const aside: Point = here ? [ASIDE, ASIDE] : [0, 0];
    const by: Point = to ? [to[0] - middle[0], to[1] - middle[1]] : aside;
    return actions.run('duplicate', { refs, by, ...(here ? {} : { level }) });
  };

  /** One more of what is selected, as far from it as the last copy was from its own. */
  const repeat = (): boolean => {
    const { selection, actions, history } = state();
    if (selection.length === 0) return false;
    const before = middleOfRefs(history.plan, lastCopy.from);
    const now = middleOfRefs(history.plan, selection);
    const again = before && now && sameRefs(lastCopy.to, selection);
    const by: Point = again ? [now[0] - before[0], now[1] - before[1]] : [ASIDE, ASIDE];
    if (!actions.run('duplicate', { refs: selection, by })) return false;
    lastCopy = { from: selection, to: state().selection };
    return true;
  };

  return {
    copy,
    paste,
    repeat,
    forget() {
      copied = [];
    },
  };
}
