import { groupBy } from '../base/group.ts';
import type { DeviceKind, KindRegistry, RoomUse } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import { useOfRoom } from './usual-needs.ts';

/** Rooms that speak for a place where food is sold, and for one where people work at desks. */
const SELLS: readonly RoomUse[] = ['bar', 'counter', 'kitchen', 'drive-through'];
const WORKS: readonly RoomUse[] = ['office', 'staff'];

/**
 * The kinds of device in the order in which a plan is likely to ask for them. The registry's order is that of a place
 * where food is sold. Where the names of the rooms speak of desks, what those rooms usually have comes first, and what
 * belongs to counters and kitchens for the most part comes last. Where no name speaks of either, what is placed most comes first.
 */
export function shelfOrder(plan: Plan, kinds: KindRegistry): readonly DeviceKind[] {
  const all = [...kinds.values()];
  const uses = [...plan.tables.zones.values()].flatMap(({ name }) => useOfRoom(name) ?? []);
  const count = (some: readonly RoomUse[]) => uses.filter((use) => some.includes(use)).length;
  if (count([...SELLS, ...WORKS]) === 0) {
    const placed = groupBy(plan.tables.devices.values(), ({ kind }) => kind);
    return ranked(all, ({ id }) => -(placed.get(id)?.length ?? 0));
  }
  if (count(WORKS) <= count(SELLS)) return all;
  const rooms = ({ usualIn }: DeviceKind) => count(usualIn);
  const sells = ({ usualIn }: DeviceKind) =>
    usualIn.filter((use) => SELLS.includes(use)).length > usualIn.length / 2;
  // Of those that as many rooms ask for, the one that is at home in fewer sorts of rooms says more.
  return ranked(
    all,
    (kind) => -rooms(kind),
    (kind) => (sells(kind) ? 1 : 0),
    (kind) => (rooms(kind) > 0 ? kind.usualIn.length : 0),
  );
}

/** In the order of the first of some numbers that differs; else as before. */
const ranked = <T>(list: readonly T[], ...by: readonly ((one: T) => number)[]): T[] =>
  [...list].sort((p, q) => {
    for (const rank of by) if (rank(p) !== rank(q)) return rank(p) - rank(q);
    return 0;
  });
