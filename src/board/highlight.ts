import { groupBy } from '../base/group.ts';
import { formatLength, type Units } from '../base/units.ts';
import type { Ink, Mark, Style } from '../drawing/display.ts';
import { fontMeasure } from '../drawing/measure.ts';
import { dimensionLine, noteSize, openingOutline } from '../drawing/opening-marks.ts';
import { jackWords } from '../drawing/outlet-marks.ts';
import { wallCorners } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { pointsOf } from '../plan/commands/move-point.ts';
import { jacksOfRefs } from '../plan/jacks.ts';
import { shownCorners } from '../plan/picture-place.ts';
import { job, type Note, type Plan, type Ref } from '../plan/plan.ts';
import { runsByRiser } from '../results/risers.ts';
import type { Run, Survey } from '../results/types.ts';
import { t } from '../text/index.ts';
import { paperPixels } from './scene.ts';
import { type SessionStore, shownPlan, toBoard } from './session.ts';

type Places = ReadonlyMap<string, Point>;

/** How much a thing stands out: picked, or merely under the pointer. */
interface Look {
  readonly width: number;
  readonly opacity: number;
}
const PICKED: Look = { width: 0.55, opacity: 1 };
const HOVERED: Look = { width: 0.45, opacity: 0.6 };

const stroke = ({ width, opacity }: Look, more: Partial<Style> = {}): Style => ({
  stroke: 'pick',
  width,
  opacity,
  ...more,
});

/** The runs of more outlets than this are shown without their tags, which would cover the drawing. */
const MOST_TAGS = 4;

/** What stands out: what is placed or picked, what is pointed at beside it, and the runs of both. */
function standsOut(session: SessionStore, drawing: boolean) {
  const plan = shownPlan(session);
  const { survey } = session;
  const placing = placed(session);
  // What is drawn with the pin in hand is about the runs that are picked.
  const hidden = drawing && session.tool !== 'pin';
  const selection = placing.length > 0 ? placing : hidden ? [] : session.selection;
  const beside = session.hover && !selection.some((ref) => sameRef(ref, session.hover!));
  const hover = beside ? session.hover : null;
  const picked = runsOf(plan, survey, selection);
  const pointed = hover ? runsOf(plan, survey, [hover]) : [];
  return { selection, hover, picked, pointed };
}

/** The same, looked for once for each state of a session, since a frame asks twice: for what lies under symbols, and over. */
function outstanding(session: SessionStore, drawing: boolean): ReturnType<typeof standsOut> {
  const of = drawing ? known.drawing : known.other;
  const found = of.get(session) ?? standsOut(session, drawing);
  of.set(session, found);
  return found;
}

const known = {
  drawing: new WeakMap<SessionStore, ReturnType<typeof standsOut>>(),
  other: new WeakMap<SessionStore, ReturnType<typeof standsOut>>(),
};

/**
 * What is drawn over the plan: the way home of what is picked or pointed at, outlines and handles.
 *
 * @param drawn where symbols are drawn, by their row
 * @param drawing whether something new is being drawn, so that what is picked stays in the background
 */
export function highlightMarks(session: SessionStore, drawn: Places, drawing = false): Mark[] {
  const plan = shownPlan(session);
  const { survey, level } = session;
  const { selection, hover, picked, pointed } = outstanding(session, drawing);
  const marks: Mark[] = [];
  for (const run of pointed)
    marks.push(...wayHome(run, survey!, level, { width: 0.7, opacity: 0.55 }));
  for (const run of picked)
    marks.push(...wayHome(run, survey!, level, { width: 0.95, opacity: 1 }));
  for (const ref of selection) marks.push(...outlineOf(plan, ref, level, PICKED, drawn));
  if (hover) marks.push(...outlineOf(plan, hover, level, HOVERED, drawn));
  if (selection.length === 1 && session.tool === 'select')
    for (const at of pointsOf(plan, selection[0]!)) marks.push(handle(at));
  return marks;
}

/** The lengths of the runs that stand out, on tags at their outlets; parameters as those of `highlightMarks`. */
export function tagMarks(session: SessionStore, drawn: Places, drawing = false): Mark[] {
  const { picked, pointed } = outstanding(session, drawing);
  const marks: Mark[] = [];
  for (const [runs, firm] of [
    [picked, true],
    [pointed, false],
  ] as const) {
    const outlets = [...groupBy(runs, (run) => run.outlet).values()];
    if (outlets.length <= MOST_TAGS)
      for (const group of outlets) marks.push(...outletTag(session, group, firm, drawn));
  }
  return marks;
}

/** Devices and outlets that the preview adds: what is being placed, so that its way home is seen before the click. */
function placed({ preview, history }: SessionStore): readonly Ref[] {
  if (!preview) return [];
  return (['devices', 'outlets'] as const).flatMap((table) =>
    preview.tables[table] === history.plan.tables[table]
      ? []
      : [...preview.tables[table].keys()]
          .filter((id) => !history.plan.tables[table].has(id))
          .map((id): Ref => ({ table, id })),
  );
}

const sameRef = (a: Ref, b: Ref): boolean => a.table === b.table && a.id === b.id;

function runsOf(plan: Plan, survey: Survey | null, refs: readonly Ref[]): readonly Run[] {
  if (!survey) return [];
  const jacks = new Set(jacksOfRefs(plan, refs));
  for (const { table, id } of refs)
    if (table === 'risers')
      for (const run of runsByRiser(survey.runs).get(id) ?? []) jacks.add(run.jack);
  return jacks.size === 0 ? [] : survey.runs.filter((run) => jacks.has(run.jack));
}

/** The stretches of a run on a level, thick, over all other cable. */
function wayHome(run: Run, survey: Survey, level: string, look: Look): Mark[] {
  const marks: Mark[] = [];
  for (const way of survey.ways) {
    if (way.level !== level || !way.jacks.includes(run.jack)) continue;
    const points: Point[] = [
      [way.from[0], way.from[1]],
      [way.to[0], way.to[1]],
    ];
    if (points[0]![0] === points[1]![0] && points[0]![1] === points[1]![1]) continue;
    marks.push({ op: 'line', points, style: stroke(look) });
  }
  return marks;
}

const TAG = 2.7;
/** Nearest and farthest edge of a tag from its jack's middle, paper mm. */
const NEAR = 4.2;
const FAR = 8;

/** What stands on the tag of an outlet's runs: `F4,-2 43'-7"`; two lengths where they differ. */
function tagWords(runs: readonly Run[], units: Units): string {
  const lengths = runs.map((run) =>
    run.status === 'unroutable' ? t('board.no-way') : formatLength(run.cable, units),
  );
  return `${jackWords(runs)} ${[...new Set(lengths)].join(' / ')}`;
}

/** The labels of an outlet's runs with their length: over it, or under it at the top of the board. */
function outletTag(
  session: SessionStore,
  runs: readonly Run[],
  firm: boolean,
  drawn: Places,
): Mark[] {
  const plan = shownPlan(session);
  const outlet = plan.tables.outlets.get(runs[0]!.outlet);
  if (!outlet || outlet.level !== session.level) return [];
  const words = tagWords(runs, job(plan).units);
  const half = fontMeasure.width(words, TAG, 'mono', true) / 2 + 1;
  const at = drawn.get(`outlets/${outlet.id}`) ?? outlet.at;
  const { viewport } = session;
  const room = toBoard(viewport, at)[1] / paperPixels(viewport.scale);
  const way = room < FAR + 6 ? 1 : -1;
  const [ink, paper]: [Ink, Ink] = firm ? ['paper', 'pick'] : ['pick', 'paper'];
  const box: Mark = {
    op: 'line',
    closed: true,
    points: [
      [-half, way * FAR],
      [half, way * FAR],
      [half, way * NEAR],
      [-half, way * NEAR],
    ],
    style: { fill: paper, stroke: 'pick', width: 0.3 },
  };
  const text: Mark = {
    op: 'text',
    at: [0, (way * (NEAR + FAR)) / 2],
    text: words,
    size: TAG,
    face: 'mono',
    bold: true,
    ink,
    align: 'centre',
    vertical: 'middle',
  };
  return [{ op: 'symbol', at, marks: [box, text] }];
}

/** A square on a point that can be dragged. */
const handle = (at: Point): Mark => ({
  op: 'symbol',
  at,
  marks: [
    {
      op: 'line',
      closed: true,
      points: [
        [-0.9, -0.9],
        [0.9, -0.9],
        [0.9, 0.9],
        [-0.9, 0.9],
      ],
      style: { stroke: 'pick', width: 0.35, fill: 'paper' },
    },
  ],
});

/** The ring round a symbol at paper size. */
const ringRound = (at: Point, radius: number, look: Look): Mark => ({
  op: 'symbol',
  at,
  marks: [{ op: 'circle', at: [0, 0], radius, style: stroke(look) }],
});

const RADIUS: Readonly<Record<string, number>> = {
  devices: 4.4,
  closets: 5,
  outlets: 3.2,
  powers: 3,
  risers: 3.4,
};

/** The ring round a pin of one place. */
const PIN_RING = 2.4;

function outlineOf(plan: Plan, ref: Ref, level: string, look: Look, drawn: Places): Mark[] {
  const row = plan.tables[ref.table].get(ref.id) as
    | { level?: string; upper?: string; wall?: string; at?: Point }
    | undefined;
  if (!row) return [];
  if (ref.table === 'jacks') {
    const { outlet } = plan.tables.jacks.get(ref.id)!;
    return outlineOf(plan, { table: 'outlets', id: outlet }, level, look, drawn);
  }
  if (levelOfRow(plan, row) !== level && row.upper !== level) return [];
  if (ref.table === 'notes') return [noteBox(plan.tables.notes.get(ref.id)!, look)];
  if (row.at) {
    const at = drawn.get(`${ref.table}/${ref.id}`) ?? row.at;
    return [ringRound(at, RADIUS[ref.table] ?? 3, look)];
  }
  const points = borderOf(plan, ref);
  if (points.length === 0) return [];
  const closed = !OPEN.has(ref.table);
  if (points.length === 1) return [ringRound(points[0]!, PIN_RING, look)];
  return [{ op: 'line', closed, points, style: stroke(look) }];
}

/** A frame round the words of a note. */
function noteBox({ at, text }: Note, look: Look): Mark {
  const { width, height } = noteSize(fontMeasure, text);
  const [x, y] = [width / 2 + 0.6, height / 2 + 0.6];
  const points: Point[] = [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ];
  return { op: 'symbol', at, marks: [{ op: 'line', closed: true, points, style: stroke(look) }] };
}

/** The level that a row stands on; of what stands in a wall that of the wall. */
const levelOfRow = (plan: Plan, row: { level?: string; wall?: string }): string | undefined =>
  row.level ?? plan.tables.walls.get(row.wall ?? '')?.level;

/** Tables whose rows are lines with two ends, and no areas. */
const OPEN: ReadonlySet<Ref['table']> = new Set(['pathways', 'pins', 'dimensions']);

function borderOf(plan: Plan, ref: Ref): readonly Point[] {
  if (ref.table === 'openings') {
    const opening = plan.tables.openings.get(ref.id)!;
    return openingOutline(plan.tables.walls.get(opening.wall)!, opening);
  }
  if (ref.table === 'dimensions') return dimensionLine(plan.tables.dimensions.get(ref.id)!);
  if (ref.table === 'walls') {
    const wall = plan.tables.walls.get(ref.id)!;
    return wallCorners(wall.a, wall.b, wall.thickness);
  }
  if (ref.table === 'backgrounds') {
    return shownCorners(plan.tables.backgrounds.get(ref.id)!);
  }
  return pointsOf(plan, ref);
}
