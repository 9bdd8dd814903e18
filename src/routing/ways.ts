import type { Id } from '../base/ids.ts';
import type { Place, Way } from '../results/types.ts';

/** A straight stretch of one cable: the line that it lies on, and its ends along it. */
export interface Lay {
  readonly jack: Id;
  /** Place of the jack in the order of labels. */
  readonly rank: number;
  readonly level: Id;
  readonly track: string;
  readonly pathway: Id | null;
  readonly span: readonly [number, number];
  readonly from: Place;
  readonly to: Place;
}

/**
 * Puts the cables of all runs together: each straight stretch on which the same cables lie, at its full length.
 * Stretches on one line at one elevation never overlap.
 */
export function waysOf(lays: readonly Lay[]): Way[] {
  const lines = new Map<string, Lay[]>();
  for (const lay of lays) {
    const key = `${lay.level} ${lay.track} ${lay.pathway ?? ''} ${lay.from[2]}`;
    const line = lines.get(key);
    if (line) line.push(lay);
    else lines.set(key, [lay]);
  }
  return [...lines.values()].flatMap(waysOnLine);
}

interface Event {
  readonly at: number;
  readonly place: Place;
  readonly lay: Lay;
  readonly enter: boolean;
}

function waysOnLine(lays: readonly Lay[]): Way[] {
  const events: Event[] = [];
  for (const lay of lays) {
    const [p, q] = lay.span;
    events.push({ at: Math.min(p, q), place: p <= q ? lay.from : lay.to, lay, enter: true });
    events.push({ at: Math.max(p, q), place: p <= q ? lay.to : lay.from, lay, enter: false });
  }
  events.sort((a, b) => a.at - b.at);
  const ways: Way[] = [];
  const inside = new Map<Id, { lay: Lay; times: number }>();
  let open: { from: Place; key: string; jacks: Id[] } | null = null;
  for (let i = 0; i < events.length; ) {
    const { at, place } = events[i]!;
    for (; i < events.length && events[i]!.at === at; i++) count(inside, events[i]!);
    const cables = [...inside.values()].sort((a, b) => a.lay.rank - b.lay.rank);
    const jacks = cables.map((c) => c.lay.jack);
    const key = jacks.join(' ');
    if (open && open.key === key) continue;
    if (open && open.jacks.length > 0) ways.push(way(lays[0]!, open.from, place, open.jacks));
    open = { from: place, key, jacks };
  }
  return ways;
}

function count(inside: Map<Id, { lay: Lay; times: number }>, { lay, enter }: Event): void {
  const entry = inside.get(lay.jack);
  const times = (entry?.times ?? 0) + (enter ? 1 : -1);
  if (times === 0) inside.delete(lay.jack);
  else inside.set(lay.jack, { lay, times });
}

const way = (lay: Lay, from: Place, to: Place, jacks: readonly Id[]): Way => ({
  level: lay.level,
  from,
  to,
  pathway: lay.pathway,
  jacks,
});
