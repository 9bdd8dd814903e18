import { PLAN_GROUPS, type PlanGroup } from '../drawing/plan-marks.ts';
import type { Leg, Shown } from './session.ts';

/** How strongly a leg shows each group, 0 to 1; what is not named is shown in full. */
const EMPHASIS: Readonly<Record<Leg, Partial<Record<PlanGroup, number>>>> = {
  base: {
    zones: 0.4,
    ways: 0.25,
    pins: 0.4,
    counts: 0,
    crossings: 0,
    findings: 0,
    devices: 0.5,
    outlets: 0.5,
    power: 0.5,
  },
  rooms: {
    ways: 0.3,
    pins: 0.4,
    counts: 0,
    crossings: 0,
    findings: 0,
    devices: 0.5,
    outlets: 0.5,
    power: 0.5,
  },
  devices: { background: 0.6, ways: 0.5, counts: 0.6, crossings: 0.5, findings: 0 },
  runs: { background: 0.4, zones: 0.75, rooms: 0.8, devices: 0.65, power: 0.4, findings: 0 },
  checks: { background: 0.6, zones: 0.75, ways: 0.7, counts: 0.6, power: 0.6 },
  price: { background: 0.6, findings: 0 },
  print: { findings: 0 },
};

/** Farther than this the sheet is too small for more than what the leg is about: paper mm for one mm, 1/150. */
export const SMALL = 1 / 150;
/** What a small drawing leaves out, except on the legs that are about it. */
const FINE: Partial<Record<PlanGroup, readonly Leg[]>> = {
  counts: ['runs', 'print'],
  crossings: ['runs', 'checks', 'print'],
  power: ['devices', 'print'],
};
/** Whether a leg reads the names of pathways. */
export const readsNotes = (leg: Leg): boolean => leg === 'runs' || leg === 'print';

/** How strongly a leg shows a group, 0 to 1. */
export const strength = (leg: Leg, group: PlanGroup): number => EMPHASIS[leg][group] ?? 1;

/** Groups that are drawn at all: those that the leg shows and nobody has put away. */
export function groupsOf(leg: Leg, shown: Shown, small: boolean): ReadonlySet<PlanGroup> {
  const away = new Set<PlanGroup>([
    ...(shown.background ? [] : (['background'] as const)),
    ...(shown.rooms ? [] : (['zones', 'rooms'] as const)),
    ...(shown.counts ? [] : (['counts'] as const)),
    ...(shown.power ? [] : (['power'] as const)),
  ]);
  const fine = (group: PlanGroup) => small && FINE[group] && !FINE[group].includes(leg);
  return new Set(
    PLAN_GROUPS.filter((group) => strength(leg, group) > 0 && !away.has(group) && !fine(group)),
  );
}
