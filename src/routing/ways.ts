import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import type { Place, Way } from '../results/types.ts';
import { sameList } from './plan-networks.ts';

/** A straight stretch of one cable: the line that it lies on, and its ends along it. */
export interface Lay {
  /** Names level, line, pathway and elevation. */
  readonly line: string;
  readonly jack: Id;
  /** Place of the jack in the order of labels. */
  readonly rank: number;
  readonly level: Id;
  readonly pathway: Id | null;
  readonly span: readonly [number, number];
  readonly from: Place;
  readonly to: Place;
}

/**
 * Puts the cables of all runs together: each straight stretch on which the same cables lie, at its full length.
 * Stretches on one line at one elevation never overlap.
 *
 * It remembers its last answer: the ways on a line are the very same while the very same stretches lie there.
 */
export function createWays(): (lays: Iterable<Lay>) => Way[] {
  let known = new Map<string, { lays: Lay[]; ways: readonly Way[] }>();
  return (all) => {
    const lines = groupBy(all, (lay) => lay.line);
    const next: typeof known = new Map();
    for (const [line, lays] of lines) {
      const last = known.get(line);
      const ways = last && sameList(last.lays, lays) ? last.ways : waysOnLine(lays);
      next.set(line, { lays, ways });
    }
    known = next;
    return [...next.values()].flatMap(({ ways }) => ways);
  };
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
  const cables = new Cables();
  let from: Place | null = null;
  for (let i = 0; i < events.length; ) {
    const first = events[i]!;
    const start = i;
    while (i < events.length && events[i]!.at === first.at) i++;
    const here = events.slice(start, i);
    const changed = cables.changeAt(here);
    if (changed) {
      const jacks = cables.jacks();
      if (from && jacks.length > 0) ways.push(way(first.lay, from, first.place, jacks));
      from = first.place;
    }
    cables.apply(here);
  }
  return ways;
}

/** The cables at a place of a line, by the rank of their jacks; one may lie there more than once. */
class Cables {
  readonly #times = new Map<Id, number>();
  readonly #sorted: Lay[] = [];

  jacks(): Id[] {
    return this.#sorted.map((lay) => lay.jack);
  }

  /** Whether these events bring a cable in or take one out, rather than hand it on from stretch to stretch. */
  changeAt(events: readonly Event[]): boolean {
    const net = new Map<Id, number>();
    for (const { lay, enter } of events)
      net.set(lay.jack, (net.get(lay.jack) ?? 0) + (enter ? 1 : -1));
    for (const [jack, change] of net) {
      const times = this.#times.get(jack) ?? 0;
      if (times > 0 !== times + change > 0) return true;
    }
    return false;
  }

  apply(events: readonly Event[]): void {
    const touched = new Map<Id, { lay: Lay; change: number }>();
    for (const { lay, enter } of events) {
      const change = (touched.get(lay.jack)?.change ?? 0) + (enter ? 1 : -1);
      touched.set(lay.jack, { lay, change });
    }
    for (const { lay, change } of touched.values()) {
      const before = this.#times.get(lay.jack) ?? 0;
      this.#times.set(lay.jack, before + change);
      if (before > 0 === before + change > 0) continue;
      const i = this.#place(lay.rank);
      if (before > 0) this.#sorted.splice(i, 1);
      else this.#sorted.splice(i, 0, lay);
    }
  }

  #place(rank: number): number {
    let lo = 0;
    let hi = this.#sorted.length;
    while (lo < hi) {
      const mid = (lo + hi) >> 1;
      if (this.#sorted[mid]!.rank < rank) lo = mid + 1;
      else hi = mid;
    }
    return lo;
  }
}

const way = (lay: Lay, from: Place, to: Place, jacks: readonly Id[]): Way => ({
  level: lay.level,
  from,
  to,
  pathway: lay.pathway,
  jacks,
});
