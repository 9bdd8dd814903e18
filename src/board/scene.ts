import type { Mark } from '../drawing/display.ts';
import { fontMeasure } from '../drawing/measure.ts';
import { PLAN_GROUPS, type PlanDrawing, type PlanGroup, planMarks } from '../drawing/plan-marks.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import { type Leg, type SessionStore, type Shown, shownPlan } from './session.ts';

/**
 * Screen pixels for one paper mm at a zoom. The board is a sheet held nearer or farther: at the usual 1/8" = 1'-0" it
 * shows symbols a little larger than print, and they grow and shrink far less than the building does.
 */
export function paperPixels(scale: number): number {
  const usual = 0.045;
  return Math.min(5.4, Math.max(2.6, 4.3 * (scale / usual) ** 0.3));
}

/** How strongly a leg shows each group, 0 to 1; what is not named is shown in full. */
const EMPHASIS: Readonly<Record<Leg, Partial<Record<PlanGroup, number>>>> = {
  base: {
    zones: 0.4,
    ways: 0.25,
    counts: 0,
    crossings: 0,
    findings: 0,
    devices: 0.5,
    outlets: 0.5,
    power: 0.5,
  },
  rooms: {
    background: 0.85,
    ways: 0.3,
    counts: 0,
    crossings: 0,
    findings: 0,
    devices: 0.5,
    outlets: 0.5,
    power: 0.5,
  },
  devices: { background: 0.6, ways: 0.5, counts: 0.6, crossings: 0.5, findings: 0 },
  runs: { background: 0.4, zones: 0.75, rooms: 0.8, devices: 0.65, power: 0.4, findings: 0 },
  checks: { background: 0.4, zones: 0.75, ways: 0.7, counts: 0.6, power: 0.6 },
  price: { background: 0.4, findings: 0 },
  print: { findings: 0 },
};

const strength = (leg: Leg, group: PlanGroup): number => EMPHASIS[leg][group] ?? 1;

/** Groups that are drawn at all: those that the leg shows and nobody has put away. */
function groupsOf(leg: Leg, shown: Shown): ReadonlySet<PlanGroup> {
  const away = new Set<PlanGroup>([
    ...(shown.background ? [] : (['background'] as const)),
    ...(shown.rooms ? [] : (['zones', 'rooms'] as const)),
    ...(shown.counts ? [] : (['counts'] as const)),
    ...(shown.power ? [] : (['power'] as const)),
  ]);
  return new Set(PLAN_GROUPS.filter((group) => strength(leg, group) > 0 && !away.has(group)));
}

export interface SceneLayer {
  readonly marks: readonly Mark[];
  readonly opacity: number;
}

export interface Scene {
  readonly layers: readonly SceneLayer[];
  /** Where symbols are drawn that stand aside, by their row. */
  readonly drawn: ReadonlyMap<string, Point>;
}

/** Layouts are made for steps of zoom, this many to a doubling, so that labels stay where they are while one zooms. */
const STEPS = 4;

const stepped = (scale: number): number => 2 ** (Math.round(Math.log2(scale) * STEPS) / STEPS);

/** Makes the scene of a session, and makes it anew only where something that it shows has changed. */
export function sceneMaker(kinds: KindRegistry): (session: SessionStore) => Scene {
  let key: readonly unknown[] = [];
  let scene: Scene = { layers: [], drawn: new Map() };
  return (session) => {
    const { survey, level, leg, shown, viewport } = session;
    const plan = shownPlan(session);
    const scale = stepped(viewport.scale);
    const now = [plan, survey, level, leg, shown, scale];
    if (now.some((value, i) => value !== key[i])) {
      key = now;
      scene = drawScene(plan, survey, session, kinds, scale);
    }
    return scene;
  };
}

function drawScene(
  plan: Plan,
  survey: Survey | null,
  { level, leg, shown }: SessionStore,
  kinds: KindRegistry,
  scale: number,
): Scene {
  const drawing: PlanDrawing = planMarks(plan, survey, {
    level,
    scale: scale / paperPixels(scale),
    kinds,
    measure: fontMeasure,
    groups: groupsOf(leg, shown),
  });
  return {
    layers: drawing.layers.map(({ group, marks }) => ({ marks, opacity: strength(leg, group) })),
    drawn: new Map(),
  };
}
