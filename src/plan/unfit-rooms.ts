import { distance } from '../geometry/nearest.ts';
import { bareParts, inBody } from './bare-parts.ts';
import { onLevel, type Plan, type Zone } from './plan.ts';

/** What a room seems to be that is no place for a network closet. */
export type Seeming = 'cold' | 'wet' | 'hot' | 'public';

/** Why a room is no place for a network closet; `said` where somebody said so. */
export type Unfit = Seeming | 'said';

/**
 * Words of a room's name that say what speaks against a closet in it: switches want a dry, locked room at room
 * temperature (common practice, no source).
 */
const WORDS: readonly (readonly [RegExp, Seeming])[] = [
  [/cooler|freezer|walk.?in|cold|chill|refriger/i, 'cold'],
  [/dish|wash|restroom|toilet|shower|bath|janitor|mop|laundry|\bwet\b|\bwc\b/i, 'wet'],
  [/kitchen|cook|grill|\bfry|oven|bak(?:e|ing)|boiler|furnace/i, 'hot'],
  [
    /dining|\bbar\b|lounge|lobby|foyer|entr(?:y|ance)|vestibule|host|wait|seating|banquet|takeout|counter|hall|corridor|stair|passage|patio|terrace|porch/i,
    'public',
  ],
];

/** What speaks against a closet in a room: what somebody said of it, else what it seems to be; null for nothing known. */
export function unfitFor(plan: Plan, zone: Zone): Unfit | null {
  if (zone.closetMay !== null) return zone.closetMay ? null : 'said';
  return seeming(plan, zone);
}

/** What a room seems to be: by its name, or by insulated walls round most of it; null for nothing that speaks against a closet. */
export function seeming(plan: Plan, zone: Zone): Seeming | null {
  if (isInsulated(plan, zone)) return 'cold';
  return WORDS.find(([words]) => words.test(zone.name))?.[1] ?? null;
}

function isInsulated(plan: Plan, { level, outline }: Zone): boolean {
  const walls = onLevel(plan, 'walls', level).filter((w) => w.construction === 'insulated');
  if (walls.length === 0) return false;
  let all = 0;
  let bare = 0;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    all += distance(a, b);
    for (const [p, q] of bareParts(walls, a, b, inBody)) bare += distance(p, q);
  });
  return bare * 2 < all;
}
