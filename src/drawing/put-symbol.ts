import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { type Ref, refKey } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import type { Ink, Mark } from './display.ts';
import { type Placed, place, take } from './label-place.ts';
import { type Drafting, type PlanGroup, toBuilding, toPaper } from './plan-view.ts';

/** Rows in the order of their ids, `D2` before `D12`, so that a drawing does not depend on how its rows are stored. */
export const byId = ({ id: a }: { id: Id }, { id: b }: { id: Id }): number =>
  a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

/** A fine line from an object to what stands off it, with a dot where the object is; `of` is the object's row. */
export const leaderMark = (
  { view }: Drafting,
  leader: readonly [Point, Point],
  ink: Ink,
  of?: Ref,
): Mark => ({
  op: 'group',
  ...(of ? { of: refKey(of) } : {}),
  at: [0, 0],
  scale: 1 / view.scale,
  marks: [
    { op: 'circle', at: leader[0], radius: 0.32, style: { fill: ink } },
    { op: 'line', points: leader, style: { stroke: ink, width: 0.15 } },
  ],
});

/** How far marks in paper mm reach from their origin. */
export function extent(marks: readonly Mark[]): { width: number; height: number } {
  let x = 0;
  let y = 0;
  for (const mark of marks) {
    if (mark.op === 'line')
      for (const p of mark.points) {
        x = Math.max(x, Math.abs(p[0]));
        y = Math.max(y, Math.abs(p[1]));
      }
    if (mark.op === 'circle') {
      x = Math.max(x, Math.abs(mark.at[0]) + mark.radius);
      y = Math.max(y, Math.abs(mark.at[1]) + mark.radius);
    }
  }
  return { width: x * 2, height: y * 2 };
}

/** A symbol that wants to stand at its row's place. */
export interface SymbolWish {
  readonly group: PlanGroup;
  /** Its own place, mm of the building. */
  readonly at: Point;
  /** Its size on paper with some air, mm. */
  readonly size: { readonly width: number; readonly height: number };
  readonly marks: readonly Mark[];
  /** The ink of its leader. */
  readonly ink: Ink;
  /** What it is called where it has no room. */
  readonly what: string;
  readonly row?: Ref;
}

/** Puts a symbol at its place, or aside on a leader; with `spread` off always at its place. Null: not drawn. */
export function putSymbol(drafting: Drafting, wish: SymbolWish): Placed | null {
  const { view, field, put, leaveOut } = drafting;
  const { group, at, size, marks, ink, what, row } = wish;
  const anchor = toPaper(view, at);
  let placed: Placed | null = { at: anchor, leader: null };
  if (view.spread ?? true) placed = place(field, { anchor, reach: 0.3, ...size, onAnchor: true });
  else take(field, boxAround(anchor, size.width, size.height));
  if (!placed) {
    leaveOut(group, what);
    if (!view.keep) return null;
    placed = { at: anchor, leader: null };
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, ink, row));
  const named = row ? { row: refKey(row) } : {};
  put(group, { op: 'symbol', at: toBuilding(view, placed.at), ...named, marks });
  return placed;
}
