import type { Point } from '../geometry/point.ts';
import type { Ground } from './ground.ts';
import { type LineSet, lowerBound } from './lines.ts';
import { eachOn, type Nodes, type Row } from './nodes.ts';
import { JOIN_REACH } from './site.ts';
import type { Track } from './track.ts';
import { meeting, type NearTracks, nearestOn, placeOn } from './track-places.ts';

/** A stop of a track while the graph is being built. */
export interface Draft {
  p: number;
  side: 0 | 1;
  /** Nodes where it joins the plane. */
  joins: number[];
}

/** The plane as it stands while stops are put on tracks: the rows hold its crossings alone. */
interface Plane {
  readonly lines: readonly [LineSet, LineSet];
  readonly nodes: Nodes;
  readonly rows: readonly [Row, Row];
  readonly crossings: number;
  readonly near: NearTracks;
}

/** The stops of a track in order: its ends, and where it can be joined what crosses it. */
export function draftStops(
  track: Track,
  self: number,
  tracks: readonly Track[],
  ground: Ground,
  plane: Plane,
): Draft[] {
  const lo = Math.min(track.pa, track.pb);
  const hi = Math.max(track.pa, track.pb);
  const drafts: Draft[] = [];
  const stop = (p: number, side: 0 | 1): Draft => {
    const s = p <= lo ? 1 : p >= hi ? 0 : track.axis === 2 ? 0 : side;
    const draft: Draft = { p: Math.min(hi, Math.max(lo, p)), side: s, joins: [] };
    drafts.push(draft);
    return draft;
  };
  const stopBeside = (at: Point): void => {
    const p = nearestOn(track, at);
    const [x, y] = placeOn(track, p);
    if (Math.abs(x - at[0]) + Math.abs(y - at[1]) > JOIN_REACH) return;
    stop(p, 0);
    stop(p, 1);
  };
  stop(track.pa, 0);
  stop(track.pb, 0);
  if (track.anywhere) {
    const axes = track.axis === 2 ? ([0, 1] as const) : ([(1 - track.axis) as 0 | 1] as const);
    for (const axis of axes) meetLines(track, axis, plane, stop);
    for (const index of plane.near(track)) {
      const other = tracks[index]!;
      if (index === self) continue;
      for (const place of meetings(track, other)) {
        const p = nearestOn(track, place);
        stop(p, 0);
        stop(p, 1);
      }
    }
    for (const landing of ground.landings) stopBeside(landing);
  }
  for (const pin of ground.pins) stopBeside(pin);
  const list = inOrder(drafts);
  if (track.axis === 2) joinEnds(track, list, plane);
  else joinPlane(track, track.axis, list, plane);
  return list;
}

/** Drafts by position and side, those of one place as one. */
function inOrder(drafts: Draft[]): Draft[] {
  drafts.sort((a, b) => a.p - b.p || a.side - b.side);
  let count = 0;
  for (const draft of drafts) {
    const last = drafts[count - 1];
    if (last && last.p === draft.p && last.side === draft.side) last.joins.push(...draft.joins);
    else drafts[count++] = draft;
  }
  drafts.length = count;
  return drafts;
}

/** Where another track can pass a cable on to this one. */
function meetings(track: Track, other: Track): Point[] {
  const meet = meeting(track, other);
  if (meet) return other.anywhere || isOpenEnd(other, meet) ? [meet] : [];
  const ends: Point[] = [];
  if (other.openA) ends.push([other.ax, other.ay]);
  if (other.openB) ends.push([other.bx, other.by]);
  return ends.filter((e) => {
    const [x, y] = placeOn(track, nearestOn(track, e));
    return x === e[0] && y === e[1];
  });
}

function isOpenEnd(track: Track, [x, y]: Point): boolean {
  if (track.openA && x === track.ax && y === track.ay) return true;
  return track.openB && x === track.bx && y === track.by;
}

/** Stops where the lines across a track meet it; on a slanted track each gets a node of its own on the line. */
function meetLines(
  track: Track,
  axis: 0 | 1,
  { lines, nodes }: Plane,
  stop: (p: number, side: 0 | 1) => Draft,
): void {
  const set = lines[axis];
  const from = axis === 0 ? Math.min(track.ay, track.by) : Math.min(track.ax, track.bx);
  const to = axis === 0 ? Math.max(track.ay, track.by) : Math.max(track.ax, track.bx);
  for (let i = lowerBound(set.c, from); i < set.count && set.c[i]! <= to; i++) {
    const c = set.c[i]!;
    if (track.axis !== 2) {
      const at = axis === 0 ? track.ax : track.ay;
      if (set.lo[i]! <= at && set.hi[i]! >= at) stop(c, set.side[i] as 0 | 1);
      continue;
    }
    const k =
      axis === 0 ? (c - track.ay) / (track.by - track.ay) : (c - track.ax) / (track.bx - track.ax);
    if (!(k >= 0 && k <= 1)) continue;
    const at =
      axis === 0 ? track.ax + k * (track.bx - track.ax) : track.ay + k * (track.by - track.ay);
    if (!(at > set.lo[i]! && at < set.hi[i]!)) continue;
    const node = axis === 0 ? nodes.add(at, c, i, -1) : nodes.add(c, at, -1, i);
    stop(k * track.pb, 0).joins.push(node);
  }
}

/** Whether a cable can join or leave a track at a place of it. */
export const joinable = (track: Track, { p }: { readonly p: number }): boolean =>
  track.anywhere || (track.openA && p === track.pa) || (track.openB && p === track.pb);

/** Whether a place of a track is a floor box, where no cable comes up but that of its outlet. */
export const isBoxed = (track: Track, { p }: { readonly p: number }): boolean =>
  (track.boxA && p === track.pa) || (track.boxB && p === track.pb);

/** Joins the stops of an axis-parallel track to the nodes at their place. */
function joinPlane(track: Track, axis: 0 | 1, list: readonly Draft[], plane: Plane): void {
  const { nodes, lines, rows } = plane;
  const position = axis === 0 ? nodes.x : nodes.y;
  const across = axis === 0 ? nodes.v : nodes.h;
  const sides = lines[axis === 0 ? 1 : 0].side;
  const [lo, hi] = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  const c = axis === 0 ? track.ay : track.ax;
  let i = 0;
  eachOn(rows[axis], lines[axis], c, lo, hi, (node) => {
    const p = position[node]!;
    const end = p === lo || p === hi;
    // Nodes come in order along each line; the next line begins anew.
    if (i > 0 && list[i - 1]!.p >= p) i = 0;
    while (i < list.length && list[i]!.p < p) i++;
    for (let k = i; k < list.length && list[k]!.p === p; k++) {
      const draft = list[k]!;
      if (!joinable(track, draft) || isBoxed(track, draft)) continue;
      if (end || draft.side === sides[across[node]!]) insert(draft.joins, node);
    }
  });
}

/** Puts a number into an ascending list. */
function insert(list: number[], value: number): void {
  let i = list.push(value) - 1;
  for (; i > 0 && list[i - 1]! > value; i--) list[i] = list[i - 1]!;
  list[i] = value;
}

/** Joins the ends of a slanted track to the nodes at their place. */
function joinEnds(track: Track, list: readonly Draft[], plane: Plane): void {
  const { nodes, crossings, rows, lines } = plane;
  for (const draft of list) {
    const start = draft.p === track.pa && track.openA;
    if (!start && !(draft.p === track.pb && track.openB)) continue;
    if (isBoxed(track, draft)) continue;
    const [x, y] = start ? [track.ax, track.ay] : [track.bx, track.by];
    const { joins } = draft;
    const there: number[] = [];
    eachOn(rows[0], lines[0], y, x, x, (node) => there.push(node));
    for (let node = crossings; node < nodes.count; node++)
      if (nodes.x[node] === x && nodes.y[node] === y) there.push(node);
    for (const node of there.sort((a, b) => a - b)) if (!joins.includes(node)) joins.push(node);
  }
}
