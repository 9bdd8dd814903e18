import type { Id } from '../base/ids.ts';
import type { Mark } from '../drawing/display.ts';
import { ghostMarks } from '../drawing/ghost-marks.ts';
import { fontMeasure } from '../drawing/measure.ts';
import { PLAN_GROUPS, type PlanDrawing, type PlanGroup, planMarks } from '../drawing/plan-marks.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { levelBeside } from '../plan/levels.ts';
import { type Plan, refKey } from '../plan/plan.ts';
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
    background: 0.85,
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
const SYMBOL_GROUPS: ReadonlySet<PlanGroup> = new Set([
  'leaders',
  'power',
  'outlets',
  'devices',
  'closets',
]);

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

/**
 * Makes the scene of a session, and makes it anew only where something that it shows has changed.
 *
 * To find room for every label takes longer than a frame. While symbols move, all else is laid out once, without them,
 * and they are drawn over it where they are; when they rest, they find their room.
 */
export function sceneMaker(kinds: KindRegistry): (session: SessionStore) => Scene {
  const still = keep((...parts: Parameters<typeof drawScene>) => drawScene(...parts));
  const whole = keep((...parts: Parameters<typeof drawScene>) => drawScene(...parts));
  return (session) => {
    const { survey, level, leg, shown, viewport } = session;
    const scale = stepped(viewport.scale);
    const rest: Rest = [level, leg, shown, kinds, scale];
    const { preview, history } = session;
    const moving = preview ? movingRows(history.plan, preview) : EMPTY;
    if (!preview || moving.size === 0) {
      const plan = shownPlan(session);
      return whole(keyOf(plan, survey, rest), plan, survey, 'all', ...rest);
    }
    const resting = withRows(preview, (key) => !moving.has(key));
    const key = [...keyOf(preview, survey, rest, history.plan), [...moving].join(' ')];
    const under = still(key, resting, survey, 'all', ...rest);
    const over = drawScene(
      withRows(preview, (row) => moving.has(row)),
      null,
      'symbols',
      ...rest,
    );
    return {
      layers: [...under.layers, ...over.layers],
      drawn: new Map([...under.drawn, ...over.drawn]),
    };
  };
}

type Rest = readonly [level: Id, leg: Leg, shown: Shown, kinds: KindRegistry, scale: number];

const EMPTY: ReadonlySet<string> = new Set();

/** The parts of a plan that its drawing follows from; `symbols` is the plan whose symbols count, by itself the same. */
const keyOf = (
  plan: Plan,
  survey: Survey | null,
  rest: Rest,
  symbols = plan,
): readonly unknown[] => [
  ...SHAPES.map((table) => plan.tables[table]),
  ...[...SYMBOLS, 'jacks' as const].map((table) => symbols.tables[table]),
  survey,
  ...rest,
];

/** Symbols that a preview adds or changes, by their key. */
function movingRows(before: Plan, preview: Plan): ReadonlySet<string> {
  const moving = new Set<string>();
  for (const table of SYMBOLS) {
    if (before.tables[table] === preview.tables[table]) continue;
    for (const [id, row] of preview.tables[table])
      if (before.tables[table].get(id) !== row) moving.add(refKey({ table, id }));
  }
  return moving;
}

/** A plan with only some of its symbols. */
function withRows(plan: Plan, wanted: (key: string) => boolean): Plan {
  const some = Object.fromEntries(
    SYMBOLS.map((table) => [
      table,
      new Map(
        [...(plan.tables[table] as ReadonlyMap<Id, unknown>)].filter(([id]) =>
          wanted(refKey({ table, id })),
        ),
      ),
    ]),
  );
  return { tables: { ...plan.tables, ...some } as Plan['tables'] };
}

/** Keeps the last answer of a function for as long as a key holds. */
function keep<A extends readonly unknown[], R>(make: (...args: A) => R) {
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

function drawScene(
  plan: Plan,
  survey: Survey | null,
  which: 'all' | 'symbols',
  ...[level, leg, shown, kinds, scale]: Rest
): Scene {
  const small = scale / paperPixels(scale) < SMALL;
  const groups = groupsOf(leg, shown, small);
  const drawing = planMarks(plan, survey, {
    level,
    scale: scale / paperPixels(scale),
    kinds,
    measure: fontMeasure,
    groups: which === 'all' ? groups : new Set([...groups].filter((g) => SYMBOL_GROUPS.has(g))),
    spread: which === 'all',
    keep: true,
    notes: NOTED.includes(leg) && !small,
  });
  const layers = drawing.layers.map(({ group, marks }) => ({
    marks: shown.labels || group !== 'outlets' ? marks : marks.filter(isSymbol),
    strength: strength(leg, group),
  }));
  const ghost = which === 'all' && shown.below ? ghostOf(plan, level) : [];
  return { layers: [...ghost, ...layers], drawn: drawnPlaces(drawing) };
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
