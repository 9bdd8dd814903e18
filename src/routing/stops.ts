import type { Point } from '../geometry/point.ts';
import type { Ground } from './ground.ts';
import { type LineSet, lowerBound } from './lines.ts';
import type { Nodes } from './nodes.ts';
import { JOIN_REACH } from './site.ts';
import { meeting, nearestOn, placeOn, type Track } from './tracks.ts';

/** A stop of a track while the graph is being built. */
export interface Draft {
  p: number;
  side: 0 | 1;
  /** Nodes where it joins the plane. */
  joins: number[];
}

/** The stops of a track in order: its ends, and where it can be joined what crosses it. */
export function draftStops(
  track: Track,
  self: number,
  tracks: readonly Track[],
  ground: Ground,
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
): Draft[] {
  const lo = Math.min(track.pa, track.pb);
  const hi = Math.max(track.pa, track.pb);
  const drafts = new Map<string, Draft>();
  const stop = (p: number, side: 0 | 1): Draft => {
    const s = p <= lo ? 1 : p >= hi ? 0 : track.axis === 2 ? 0 : side;
    const at = Math.min(hi, Math.max(lo, p));
    const key = `${at} ${s}`;
    const known = drafts.get(key);
    if (known) return known;
    const fresh: Draft = { p: at, side: s, joins: [] };
    drafts.set(key, fresh);
    return fresh;
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
    for (const axis of axes) meetLines(track, axis, lines, nodes, stop);
    tracks.forEach((other, index) => {
      if (index === self) return;
      for (const place of meetings(track, other)) {
        const p = nearestOn(track, place);
        stop(p, 0);
        stop(p, 1);
      }
    });
    for (const landing of ground.landings) stopBeside(landing);
  }
  for (const pin of ground.pins) stopBeside(pin);
  const list = [...drafts.values()].sort((a, b) => a.p - b.p || a.side - b.side);
  if (track.axis === 2) joinEnds(track, list, nodes);
  else joinPlane(track, list, lines, nodes);
  return list;
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
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
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

/** Joins the stops of an axis-parallel track to the nodes at their place. */
function joinPlane(
  track: Track,
  list: readonly Draft[],
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
): void {
  const open = (draft: Draft, i: number): boolean => {
    if (track.anywhere) return true;
    const first = track.pa <= track.pb ? i === 0 : i === list.length - 1;
    return first ? track.openA : track.openB && draft.p === track.pb;
  };
  const at = new Map<number, Draft[]>();
  list.forEach((draft, i) => {
    if (!open(draft, i)) return;
    const known = at.get(draft.p);
    if (known) known.push(draft);
    else at.set(draft.p, [draft]);
  });
  const mine = track.axis === 0 ? nodes.x : nodes.y;
  const fixed = track.axis === 0 ? nodes.y : nodes.x;
  const c = track.axis === 0 ? track.ay : track.ax;
  const ends = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  for (let node = 0; node < nodes.count; node++) {
    if (fixed[node] !== c || nodes.h[node]! < 0 || nodes.v[node]! < 0) continue;
    const drafts = at.get(mine[node]!);
    if (!drafts) continue;
    const line = track.axis === 0 ? nodes.v[node]! : nodes.h[node]!;
    const side = lines[track.axis === 0 ? 1 : 0].side[line]!;
    for (const draft of drafts)
      if (ends.includes(draft.p) || draft.side === side) draft.joins.push(node);
  }
}

/** Joins the ends of a slanted track to the crossings at their place. */
function joinEnds(track: Track, list: readonly Draft[], nodes: Nodes): void {
  for (const draft of list) {
    const start = draft.p === track.pa && track.openA;
    if (!start && !(draft.p === track.pb && track.openB)) continue;
    const [x, y] = start ? [track.ax, track.ay] : [track.bx, track.by];
    for (let node = 0; node < nodes.count; node++)
      if (nodes.x[node] === x && nodes.y[node] === y && !draft.joins.includes(node))
        draft.joins.push(node);
  }
}
