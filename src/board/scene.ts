import type { Id } from '../base/ids.ts';
import { ceilingMarks } from '../drawing/ceiling-marks.ts';
import type { Mark } from '../drawing/display.ts';
import { ghostMarks } from '../drawing/ghost-marks.ts';
import { boxAround } from '../drawing/label-place.ts';
import { fontMeasure } from '../drawing/measure.ts';
import { PLAN_GROUPS, type PlanDrawing, type PlanGroup, planMarks } from '../drawing/plan-marks.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { levelBeside } from '../plan/levels.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { Survey } from '../results/types.ts';
import { type Leg, type SessionStore, type Shown, shownPlan } from './session.ts';

/**
 * Screen pixels for one paper mm at a zoom. The board is a sheet held nearer or farther: at the usual 1/8" = 1'-0" it
 * shows symbols a little larger than print, and they grow and shrink far less than the building does.
 */
export function paperPixels(scale: number): number {
  const usual = 0.045;
  return Math.min(5.4, Math.max(2.6, 4.5 * (scale / usual) ** 0.4));
}

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
  checks: { background: 0.4, zones: 0.75, ways: 0.7, counts: 0.6, power: 0.6 },
  price: { background: 0.4, findings: 0 },
  print: { findings: 0 },
};

/** Farther than this the sheet is too small for more than what the leg is about: paper mm for one mm, 1/150. */
const SMALL = 1 / 150;
/** What a small drawing leaves out, except on the legs that are about it. */
const FINE: Partial<Record<PlanGroup, readonly Leg[]>> = {
  counts: ['runs', 'print'],
  crossings: ['runs', 'checks', 'print'],
  power: ['devices', 'print'],
};
/** Legs that read the names of pathways. */
const NOTED: readonly Leg[] = ['runs', 'print'];

const strength = (leg: Leg, group: PlanGroup): number => EMPHASIS[leg][group] ?? 1;

/** Groups that are drawn at all: those that the leg shows and nobody has put away. */
function groupsOf(leg: Leg, shown: Shown, small: boolean): ReadonlySet<PlanGroup> {
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

/** Tables whose rows are symbols: these can be drawn by themselves while they move. */
const SYMBOLS = ['devices', 'outlets', 'powers', 'closets'] as const;
const SYMBOL_GROUPS: readonly PlanGroup[] = ['leaders', 'power', 'outlets', 'devices', 'closets'];

/** What a plan's drawing is made of, apart from its symbols. */
const SHAPES = [
  'job',
  'levels',
  'backgrounds',
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'risers',
  'pins',
  'openings',
  'notes',
  'dimensions',
] as const;

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

/**
 * Makes the scene of a session, and makes it anew only where something that it shows has changed.
 *
 * To find room for every label takes longer than a frame. While symbols move, all else is laid out once, without them,
 * and they are drawn over it where they are; when they rest, they find their room.
 */
export function sceneMaker(kinds: KindRegistry): (session: SessionStore) => Scene {
  const still = keep(drawScene);
  const whole = keep(drawScene);
  return (session) => {
    const { survey, preview, history } = session;
    const view = sceneView(session);
    const moving = preview ? changedRows(history.plan, preview, SYMBOLS) : NONE;
    if (!preview || moving.size === 0) {
      const plan = shownPlan(session);
      return whole(keyOf(plan, survey, view), plan, survey, kinds, view, 'all');
    }
    const ids = [...moving].flatMap(([table, rows]) => [table, ...rows.keys()]).join(' ');
    const key = [...keyOf(preview, survey, view, history.plan), ids];
    const under = still(key, without(preview, moving), survey, kinds, view, 'all');
    return together(
      under,
      drawScene(alone(preview, SYMBOLS, moving), null, kinds, view, 'symbols'),
    );
  };
}

/** One scene over another. */
const together = (under: Scene, over: Scene): Scene => ({
  layers: [...under.layers, ...over.layers],
  drawn: new Map([...under.drawn, ...over.drawn]),
});

/** Tables whose rows are drawn by themselves; a picture is not laid out but painted. */
type DrawnTable =
  | (typeof SYMBOLS)[number]
  | Exclude<(typeof SHAPES)[number], 'job' | 'levels' | 'backgrounds'>;
const DRAWN: readonly DrawnTable[] = [
  ...SYMBOLS,
  ...SHAPES.filter((table) => table !== 'job' && table !== 'levels' && table !== 'backgrounds'),
];

/**
 * Makes the plan without the rows that a preview moves or takes away, which may be laid out while a gesture lasts; the
 * same plan again for as long as the same rows move.
 */
export function restingMaker(): (before: Plan, preview: Plan) => Plan {
  const still = keep(without);
  return (before, preview) => {
    const moving = changedRows(preview, before, DRAWN);
    const ids = [...moving].flatMap(([table, rows]) => [table, ...rows.keys()]).join(' ');
    return still([before, ids], before, moving);
  };
}

/** What of a plan another plan lacks or has otherwise, drawn by itself: quick, and without room for labels. */
export function sceneBetween(
  under: Plan,
  plan: Plan,
  kinds: KindRegistry,
  view: SceneView,
): Scene | null {
  const changed = changedRows(under, plan, DRAWN);
  if (changed.size === 0) return null;
  const symbols = drawScene(alone(plan, SYMBOLS, changed), null, kinds, view, 'symbols');
  const shaped = [...changed.keys()].some((table) => !SYMBOLS.includes(table as 'devices'));
  if (!shaped) return symbols;
  return together(drawScene(alone(plan, DRAWN, changed), null, kinds, view, 'shapes'), symbols);
}

/** Rows on a level from which its drawing is made. */
export function rowsDrawn(plan: Plan): number {
  return DRAWN.reduce((sum, table) => sum + plan.tables[table].size, 0);
}

const NONE: Changed = new Map();

/** The parts of a plan that its drawing follows from; `symbols` is the plan whose symbols count, by itself the same. */
const keyOf = (
  plan: Plan,
  survey: Survey | null,
  { level, leg, shown, scale, plane }: SceneView,
  symbols = plan,
): readonly unknown[] => [
  ...SHAPES.map((table) => plan.tables[table]),
  ...[...SYMBOLS, 'jacks' as const].map((table) => symbols.tables[table]),
  survey,
  level,
  leg,
  shown,
  scale,
  plane,
];

type Rows = ReadonlyMap<Id, unknown>;
type Changed = ReadonlyMap<DrawnTable, Rows>;

/** Rows that a plan has and another has not, or has otherwise; tables without any are left out. */
function changedRows(before: Plan, after: Plan, tables: readonly DrawnTable[]): Changed {
  const changed = new Map<DrawnTable, Rows>();
  for (const table of tables) {
    const old: Rows = before.tables[table];
    const rows: Rows = after.tables[table];
    if (old === rows) continue;
    const other = new Map<Id, unknown>();
    for (const [id, row] of rows) if (old.get(id) !== row) other.set(id, row);
    if (other.size > 0) changed.set(table, other);
  }
  return changed;
}

const withTables = (plan: Plan, tables: Iterable<readonly [DrawnTable, Rows]>): Plan => ({
  tables: { ...plan.tables, ...Object.fromEntries(tables) } as Plan['tables'],
});

/** A plan with only the changed rows in some of its tables, and the walls that these lie on. */
function alone(plan: Plan, tables: readonly DrawnTable[], changed: Changed): Plan {
  const walls = new Map<Id, unknown>(tables.includes('walls') ? changed.get('walls') : []);
  for (const rows of changed.values())
    for (const row of rows.values()) {
      const { wall } = row as { wall?: Id | null };
      const found = wall && plan.tables.walls.get(wall);
      if (found) walls.set(found.id, found);
    }
  return withTables(plan, [
    ...tables.map((table) => [table, changed.get(table) ?? new Map()] as const),
    ['walls', walls] as const,
  ]);
}

/** A plan without the changed rows. */
const without = (plan: Plan, changed: Changed): Plan =>
  withTables(
    plan,
    [...changed].map(([table, gone]) => {
      const rows: Rows = plan.tables[table];
      return [table, new Map([...rows].filter(([id]) => !gone.has(id)))] as const;
    }),
  );

/** Keeps the last answer of a function for as long as a key holds. */
export function keep<A extends readonly unknown[], R>(make: (...args: A) => R) {
  let last: readonly unknown[] | null = null;
  let made: R;
  return (key: readonly unknown[], ...args: A): R => {
    const before = last;
    if (!before || before.length !== key.length || key.some((value, i) => value !== before[i])) {
      last = key;
      made = make(...args);
    }
    return made;
  };
}

/** Lays a part of a plan out for a view of it. */
export function drawScene(
  plan: Plan,
  survey: Survey | null,
  kinds: KindRegistry,
  { level, leg, shown, scale, plane }: SceneView,
  part: Part,
): Scene {
  const small = scale / paperPixels(scale) < SMALL;
  const all = groupsOf(leg, shown, small);
  const groups = plane ? new Set([...all].filter((group) => !UNDER_PLANE.has(group))) : all;
  const drawing = planMarks(plan, survey, {
    level,
    scale: scale / paperPixels(scale),
    kinds,
    measure: fontMeasure,
    groups: new Set([...groups].filter(PARTS[part])),
    overPictures: groups.has('background'),
    spread: part === 'all' || part === 'lines',
    keep: true,
    notes: NOTED.includes(leg) && !small,
  });
  const layers = drawing.layers.map(({ group, marks }) => ({
    marks: shown.labels || group !== 'outlets' ? marks : marks.filter(isSymbol),
    strength: plane && ASIDE_PLANE.has(group) ? ASIDE : strength(leg, group),
  }));
  const ghost = (part === 'all' || part === 'lines') && shown.below ? ghostOf(plan, level) : [];
  const drawn = drawnPlaces(drawing);
  if (!plane || (part !== 'all' && part !== 'lines'))
    return { layers: [...ghost, ...layers], drawn };
  const over = overhead(plan, plane, drawing, scale);
  return { layers: [...ghost, over.ground, ...layers, over.words], drawn };
}

/** What gives way to the ceiling plane, and what only stands back for it. */
const UNDER_PLANE: ReadonlySet<PlanGroup> = new Set([
  'background',
  'zones',
  'keepouts',
  'walls',
  'openings',
  'pathways',
  'crossings',
  'counts',
  'rooms',
  'power',
]);
const ASIDE_PLANE: ReadonlySet<PlanGroup> = new Set(['leaders', 'outlets', 'devices', 'notes']);
const ASIDE = 0.6;

/** What a symbol takes with its label, paper mm; a closet has its name over it. */
const SYMBOL_SIZE = [10, 6] as const;
const CLOSET_SIZE = [26, 10] as const;

/** The ceiling plane: what lies under the cables, and the words for it where symbols leave room. */
function overhead(plan: Plan, plane: CeilingPlane, { layers }: PlanDrawing, scale: number) {
  const paper = scale / paperPixels(scale);
  const taken = layers.flatMap(({ group, marks }) =>
    marks.flatMap((mark) => {
      if (mark.op !== 'symbol') return [];
      const [width, height] = group === 'closets' ? CLOSET_SIZE : SYMBOL_SIZE;
      return [boxAround([mark.at[0] * paper, mark.at[1] * paper], width, height)];
    }),
  );
  const cables = layers.flatMap(({ group, marks }) =>
    group === 'ways' ? marks.flatMap((mark) => (mark.op === 'line' ? [mark.points] : [])) : [],
  );
  const { units } = job(plan);
  const view = { plan, plane, units, measure: fontMeasure, scale: paper, taken, cables };
  const { ground, words } = ceilingMarks(view);
  return { ground: { marks: ground, strength: 1 }, words: { marks: words, strength: 1 } };
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
