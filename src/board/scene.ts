import type { Id } from '../base/ids.ts';
import { atOnce, type Steps } from '../base/steps.ts';
import type { Mark } from '../drawing/display.ts';
import { ghostMarks } from '../drawing/ghost-marks.ts';
import { fontMeasure } from '../drawing/measure.ts';
import { type PlanDrawing, type PlanGroup, planSteps } from '../drawing/plan-marks.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { levelBeside } from '../plan/levels.ts';
import type { Plan } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { Survey } from '../results/types.ts';
import { groupsOf, readsNotes, SMALL, strength } from './emphasis.ts';
import { ASIDE, ASIDE_PLANE, planeLayers, UNDER_PLANE } from './plane-layers.ts';
import type { Leg, SessionStore, Shown } from './session.ts';

/**
 * Screen pixels for one paper mm at a zoom. The board is a sheet held nearer or farther: at the usual 1/8" = 1'-0" it
 * shows symbols a little larger than print, and they grow and shrink far less than the building does.
 */
export function paperPixels(scale: number): number {
  const usual = 0.045;
  return Math.min(5.4, Math.max(2.6, 4.5 * (scale / usual) ** 0.4));
}

export interface SceneLayer {
  readonly marks: readonly Mark[];
  /** How strong its inks are, 0 to 1. */
  readonly strength: number;
}

export interface Scene {
  readonly layers: readonly SceneLayer[];
  /** Where symbols are drawn, which may be aside from their own place, by their row. */
  readonly drawn: ReadonlyMap<string, Point>;
}

/** Layouts are made for steps of zoom, this many to a doubling, so that labels stay where they are while one zooms. */
const STEPS = 4;

const stepped = (scale: number): number => 2 ** (Math.round(Math.log2(scale) * STEPS) / STEPS);

const SYMBOL_GROUPS: readonly PlanGroup[] = ['leaders', 'power', 'outlets', 'devices', 'closets'];

/** What follows from the survey or stands for nothing by itself. */
const BESIDES: readonly PlanGroup[] = [
  'background',
  'ways',
  'crossings',
  'counts',
  'rooms',
  'findings',
];

/**
 * Parts of a drawing: all of it; all but pictures; pictures alone; symbols or shapes that move, without their labels
 * and where they are.
 */
type Part = 'all' | 'lines' | 'pictures' | 'symbols' | 'shapes';

const PARTS: Readonly<Record<Part, (group: PlanGroup) => boolean>> = {
  all: () => true,
  lines: (group) => group !== 'background',
  pictures: (group) => group === 'background',
  symbols: (group) => SYMBOL_GROUPS.includes(group),
  shapes: (group) => !SYMBOL_GROUPS.includes(group) && !BESIDES.includes(group),
};

/** How a scene is looked at: what of it is shown, and at which step of zoom it is laid out. */
export interface SceneView {
  readonly level: Id;
  readonly leg: Leg;
  readonly shown: Shown;
  readonly scale: number;
  /** What a cable may do overhead there, where somebody looks at it. */
  readonly plane?: CeilingPlane | null;
}

export const sceneView = (session: SessionStore): SceneView => {
  const { level, leg, shown, viewport, planes } = session;
  const plane = shown.ceiling ? planes?.find((other) => other.level === level) : null;
  return { level, leg, shown, scale: stepped(viewport.scale), plane: plane ?? null };
};

/** Whether a view is so small that it leaves out what is fine. */
const isSmall = ({ scale }: SceneView): boolean => scale / paperPixels(scale) < SMALL;

/** What a view shows of a plan, in one form or another: over the ceiling plane there are no power outlets. */
export function groupsSeen(view: SceneView): ReadonlySet<PlanGroup> {
  const groups = groupsOf(view.leg, view.shown, isSmall(view));
  return view.plane ? new Set([...groups].filter((group) => group !== 'power')) : groups;
}

/** Lays a part of a plan out for a view of it. */
export const drawScene = (...what: Parameters<typeof sceneSteps>): Scene =>
  atOnce(sceneSteps(...what));

/** The same, step by step. */
export function* sceneSteps(
  plan: Plan,
  survey: Survey | null,
  kinds: KindRegistry,
  view: SceneView,
  part: Part,
): Steps<Scene> {
  const { level, leg, shown, scale, plane } = view;
  const paper = scale / paperPixels(scale);
  const small = isSmall(view);
  const all = groupsSeen(view);
  const groups = plane ? new Set([...all].filter((group) => !UNDER_PLANE.has(group))) : all;
  const drawing = yield* planSteps(plan, survey, {
    level,
    scale: paper,
    kinds,
    measure: fontMeasure,
    groups: new Set([...groups].filter(PARTS[part])),
    overPictures: groups.has('background'),
    spread: part === 'all' || part === 'lines',
    keep: true,
    notes: readsNotes(leg) && !small,
  });
  const layers = drawing.layers.map(({ group, marks }) => ({
    marks: shown.labels || group !== 'outlets' ? marks : marks.filter(isSymbol),
    strength: plane && ASIDE_PLANE.has(group) ? ASIDE : strength(leg, group),
  }));
  const ghost = (part === 'all' || part === 'lines') && shown.below ? ghostOf(plan, level) : [];
  const drawn = drawnPlaces(drawing);
  if (!plane || (part !== 'all' && part !== 'lines'))
    return { layers: [...ghost, ...layers], drawn };
  const over = planeLayers(plan, plane, drawing, paper);
  return { layers: [...ghost, over.ground, ...layers, over.words], drawn };
}

/** How strongly the level below shows through. */
const GHOST = 0.45;

/** The level below in faint outline, to draw over; nothing under the lowest. */
function ghostOf(plan: Plan, level: Id): SceneLayer[] {
  const below = levelBeside(plan, level, -1);
  return below ? [{ marks: ghostMarks(plan, below.id), strength: GHOST }] : [];
}

/** Whether a mark stands for a row; the others of its group are labels. */
const isSymbol = (mark: Mark): boolean => mark.op === 'symbol' && mark.row !== undefined;

function drawnPlaces({ layers }: PlanDrawing): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>();
  for (const { marks } of layers)
    for (const mark of marks)
      if (mark.op === 'symbol' && mark.row !== undefined) places.set(mark.row, mark.at);
  return places;
}
