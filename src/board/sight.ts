import type { PlanGroup } from '../drawing/plan-view.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { lastArea, levelBeside } from '../plan/levels.ts';
import { covers } from '../plan/picture-place.ts';
import { job, onLevel, type Plan, type Ref, refKey } from '../plan/plan.ts';
import type { Way } from '../results/types.ts';
import type { Underlay } from '../results/underlay.ts';
import type { Held } from './editor.ts';
import { hitAt, hitBox, hitIndex } from './hit.ts';
import { offersOn } from './offers.ts';
import { remember } from './remember.ts';
import { groupsSeen, sceneView } from './scene.ts';
import type { SessionApi, SessionStore } from './session.ts';
import { gridOverPicture, gridStep, REACH, type Snapped, snap } from './snap.ts';
import { type SnapTargets, snapTargets } from './snap-targets.ts';
import { underLines, underNear } from './snap-under.ts';
import type { Tool, ToolContext } from './tools/tool.ts';

/** What a tool sees of a session: what lies where on its level, gathered once for each state of the plan. */
export interface Sight {
  context(): ToolContext;
  /** The place that is meant where the pointer is, with what acted on it. */
  place(tool: Tool, state: unknown, raw: Point, held: Held): Snapped;
  /** What the places of the level snap to. */
  targets(): SnapTargets;
  /** Tells where symbols are drawn that stand aside from their own place. */
  drawnAt(places: ReadonlyMap<string, Point>): void;
}

/** A line of the background that is seen shorter than this is a letter or a speck, px. */
const LEAST_UNDER = 8;

const NO_WAYS: readonly Way[] = [];

/** A cable is picked where the runs are what the leg is about. */
const waysToPick = ({ leg, survey }: SessionStore): readonly Way[] =>
  leg === 'runs' || leg === 'checks' ? (survey?.ways ?? NO_WAYS) : NO_WAYS;

/** The group of the drawing that rows belong to, where a leg or a person may put it away. */
const PUT_AWAY: Readonly<Partial<Record<Ref['table'], PlanGroup>>> = {
  backgrounds: 'background',
  zones: 'zones',
  powers: 'power',
};

/** Leaves out what is not drawn, which nobody can mean; what is selected is. */
function onlySeen(session: SessionStore, refs: readonly Ref[]): readonly Ref[] {
  const seen = groupsSeen(sceneView(session));
  const picked = new Set(session.selection.map(refKey));
  return refs.filter((ref) => {
    const group = PUT_AWAY[ref.table];
    return group === undefined || seen.has(group) || picked.has(refKey(ref));
  });
}

/** The grid at a place: over a picture it gives way, so that a corner follows the picture. */
function gridAt({ history, level, shown }: SessionStore, at: Point, pixel: number): number | null {
  const { plan } = history;
  const pictures = shown.background ? onLevel(plan, 'backgrounds', level) : [];
  const over = pictures.some((picture) => !picture.hidden && covers(picture, at));
  return (over ? gridOverPicture : gridStep)(job(plan).units, pixel);
}

export function createSight(session: SessionApi, kinds: KindRegistry): Sight {
  let drawn: ReadonlyMap<string, Point> = new Map();
  const targets = remember(snapTargets);
  const hits = remember((plan: Plan, level: string, ways: readonly Way[]) =>
    hitIndex(plan, level, ways),
  );
  const offers = remember(offersOn);
  const beneath = remember(underLines);

  const targetsNow = (): SnapTargets => {
    const { history, level, shown } = session.getState();
    const below = shown.below ? levelBeside(history.plan, level, -1) : null;
    return targets(history.plan, level, below?.id ?? null);
  };
  const linesNear = (under: Underlay | null, level: string, at: Point, pixel: number) =>
    underNear(beneath(under, level), at, REACH * pixel, LEAST_UNDER * pixel);

  return {
    targets: targetsNow,
    drawnAt(places) {
      drawn = places;
    },
    context() {
      const s = session.getState();
      const plan = s.history.plan;
      const pixel = 1 / s.viewport.scale;
      const ways = waysToPick(s);
      const index = () => hits(plan, s.level, ways);
      return {
        plan,
        kinds,
        level: s.level,
        option: s.toolOption,
        area: s.sameArea ? lastArea(plan, s.level) : null,
        selection: s.selection,
        pixel,
        hit: (at, touch) => onlySeen(s, hitAt(index(), at, pixel, touch, drawn)),
        inBox: (a, b, touching) => onlySeen(s, hitBox(index(), a, b, touching)),
        offers: () => offers(s.under, plan, s.level),
      };
    },
    place(tool, state, raw, held) {
      const s = session.getState();
      const carried = tool.carried?.(state) ?? null;
      const at: Point = carried ? [raw[0] + carried.offset[0], raw[1] + carried.offset[1]] : raw;
      const asked = tool.snaps(state);
      const pixel = 1 / s.viewport.scale;
      const snaps = s.snapping && held.exact !== true ? asked : [];
      const sees = s.snapsUnder && s.shown.background && snaps.includes('under-line');
      return snap(targetsNow(), at, {
        pixel,
        kinds: snaps,
        grid: gridAt(s, at, pixel),
        anchor: tool.anchor(state),
        lock: held.shift === true && asked.includes('right-angle'),
        without: new Set((carried?.refs ?? []).map(refKey)),
        under: sees ? linesNear(s.under, s.level, at, pixel) : [],
      });
    },
  };
}
