import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import {
  type Level,
  onLevel,
  type Pathway,
  type Plan,
  type Settings,
  settings,
  type Zone,
} from '../plan/plan.ts';
import { JOIN_REACH, type Site, type SiteCeiling } from './site.ts';

/** The elevation of a cable over a ceiling, above the floor of its level. */
export function cableElevation(
  ceiling: Zone['ceiling'],
  level: Level,
  s: Pick<Settings, 'tileClearance' | 'openBelowDeck' | 'hardBelowCeiling'>,
): number {
  if (ceiling.kind === 'tile') return ceiling.height + s.tileClearance;
  if (ceiling.kind === 'open') return level.deck - s.openBelowDeck;
  return ceiling.height - s.hardBelowCeiling;
}

/** One level of a plan as the router sees it. */
export function siteOf(plan: Plan, level: Level): Site {
  const s = settings(plan);
  const over = (ceiling: Zone['ceiling'], own: number | null): SiteCeiling => ({
    kind: ceiling.kind,
    height: ceiling.height,
    elevation: own ?? cableElevation(ceiling, level, s),
  });
  return {
    id: level.id,
    elevation: level.elevation,
    frameAngle: level.frameAngle,
    ceiling: over(level.ceiling, null),
    zones: onLevel(plan, 'zones', level.id).map((zone) => ({
      id: zone.id,
      outline: zone.outline,
      ...over(zone.ceiling, zone.cableElevation),
    })),
    walls: onLevel(plan, 'walls', level.id),
    keepouts: onLevel(plan, 'keepouts', level.id),
    pathways: onLevel(plan, 'pathways', level.id).map((pathway) =>
      pathway.kind === 'under-slab'
        ? { ...pathway, floorBoxes: floorBoxes(plan, pathway) }
        : pathway,
    ),
    closets: onLevel(plan, 'closets', level.id),
    prices: {
      tileFactor: s.tileFactor,
      openFactor: s.openFactor,
      hardFactor: s.hardFactor,
      pathwayFactor: s.pathwayFactor,
      framed: s.framedPrice,
      masonry: s.masonryPrice,
      rated: s.ratedPrice,
      bend: s.bendPrice,
    },
  };
}

/** At which ends of an under-slab pathway a floor outlet stands. */
function floorBoxes(plan: Plan, { level, points }: Pathway): readonly [boolean, boolean] {
  const boxes = onLevel(plan, 'outlets', level).filter(({ mount }) => mount === 'floor');
  const isAt = ([x, y]: Point): boolean =>
    boxes.some(({ at }) => Math.abs(at[0] - x) + Math.abs(at[1] - y) <= JOIN_REACH);
  return [isAt(points[0]!), isAt(points[points.length - 1]!)];
}

/** Everything that the site of a level is made of: equal lists mean an equal site, since rows never change. */
export function siteInputs(plan: Plan, level: Id): readonly unknown[] {
  const s = settings(plan);
  const rows = (['zones', 'walls', 'keepouts', 'pathways'] as const).flatMap((table) => [
    table,
    ...onLevel(plan, table, level),
  ]);
  return [
    plan.tables.levels.get(level),
    s.tileFactor,
    s.openFactor,
    s.hardFactor,
    s.pathwayFactor,
    s.framedPrice,
    s.masonryPrice,
    s.ratedPrice,
    s.bendPrice,
    s.tileClearance,
    s.openBelowDeck,
    s.hardBelowCeiling,
    ...rows,
    ...onLevel(plan, 'pathways', level).flatMap((pathway) =>
      pathway.kind === 'under-slab' ? floorBoxes(plan, pathway) : [],
    ),
  ];
}
