import type { Id } from '../base/ids.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import type { KindRegistry, RoomUse } from '../kinds/kind.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import { kindName } from './names.ts';

/** Words of a room's name that say what it is for, the most telling first (common practice, no source). */
const WORDS: readonly (readonly [RegExp, RoomUse])[] = [
  [/\bbar\b|lounge/i, 'bar'],
  [/drive|pick.?up/i, 'drive-through'],
  [/kitchen|cook|prep|expo|grill/i, 'kitchen'],
  [/counter|cashier|order|till/i, 'counter'],
  [/host|entrance|foyer|lobby|wait/i, 'entrance'],
  [/office|manager/i, 'office'],
  [/break|staff|locker|crew/i, 'staff'],
  [/storage|stock|receiving|delivery/i, 'storage'],
  [/dining|patio|terrace|seating|hall/i, 'dining'],
];

/** What a room of a name is for; null where the name does not say. */
export const useOfRoom = (name: string): RoomUse | null =>
  WORDS.find(([words]) => words.test(name))?.[1] ?? null;

/** A kind that a room usually needs, in words, and how many stand in it. */
export interface Need {
  readonly what: string;
  readonly count: number;
}

/** The rooms of a level whose names say what they are for, with what such rooms usually need; others are left out. */
export function usualNeeds(
  plan: Plan,
  level: Id,
  kinds: KindRegistry,
): readonly { readonly zone: Id; readonly name: string; readonly needs: readonly Need[] }[] {
  const devices = onLevel(plan, 'devices', level);
  return onLevel(plan, 'zones', level).flatMap((zone) => {
    const use = useOfRoom(zone.name);
    if (!use) return [];
    const here = devices.filter(({ at }) => insidePolygon(zone.outline, at[0], at[1]));
    const needs = [...kinds.values()]
      .filter(({ usualIn }) => usualIn.includes(use))
      .map(({ id }) => ({
        what: kindName(plan, kinds, id).toLowerCase(),
        count: here.filter((device) => device.kind === id).length,
      }));
    return [{ zone: zone.id, name: zone.name, needs }];
  });
}
