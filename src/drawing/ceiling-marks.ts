import { type Message, renderMessage } from '../base/message.ts';
import type { Units } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import { pathwayName } from '../plan/names.ts';
import type { Plan } from '../plan/plan.ts';
import type { CeilingPlane, PlaneCeiling, PlaneWall } from '../results/ceiling-plane.ts';
import { type Box, boxAround } from './box-grid.ts';
import { ceilingWords, keepoutWords, pathwayWords, wallWords } from './ceiling-words.ts';
import type { Ink, Mark, Style, TextMeasure } from './display.ts';
import { avoidLine, type Field, isFree, makeField, take } from './label-place.ts';
import { pathwayLines } from './pathway-lines.ts';
import { freeInside, KEEPOUT_STYLE } from './room-marks.ts';

/** How the ceiling plane is drawn. */
export interface CeilingView {
  readonly plan: Plan;
  readonly plane: CeilingPlane;
  readonly units: Units;
  readonly measure: TextMeasure;
  /** Paper mm for one mm of the building. */
  readonly scale: number;
  /** What labels must not cover, paper mm. */
  readonly taken: readonly Box[];
  /** What they had better not cover, mm of the building. */
  readonly cables: readonly (readonly Point[])[];
}

/** How a ceiling is filled: free travel is plain, an open structure dotted, a closed ceiling lined. */
export const CEILING_STYLES: Readonly<Record<PlaneCeiling['kind'], Style>> = {
  tile: { fill: 'tint-1', stroke: 'faint', width: 0.13 },
  open: { fill: 'tint-1', stroke: 'faint', width: 0.3, hatch: 'dots' },
  hard: { fill: 'desk', stroke: 'faint', width: 0.3, hatch: 'diagonal' },
};

/** What a keep-out keeps clear round it. */
export const CLEARANCE_STYLE: Style = {
  fill: 'warn-paper',
  stroke: 'warn',
  width: 0.13,
  hatch: 'dots',
};

/** A face along which a cable may go under a closed ceiling. */
export const FACE_STYLE: Style = { stroke: 'good', width: 0.55, dash: [2, 1] };

/** How a wall looks: hollow where it is free, lined where it has a price, crossed with a firestop, solid where barred. */
export const planeWallStyle = ({ passage, firestop }: PlaneWall): Style => {
  if (passage === 'barred') return { fill: 'warn', stroke: 'warn', width: 0.2 };
  if (passage === 'free') return { fill: 'paper', stroke: 'soft', width: 0.2 };
  return firestop
    ? { fill: 'paper', stroke: 'ink', width: 0.45, hatch: 'cross' }
    : { fill: 'paper', stroke: 'ink', width: 0.25, hatch: 'diagonal' };
};

/** The same where a wall is too thin on paper to be hatched: lines that are broken in ways of their own. */
const thinWallStyle = (wall: PlaneWall): Style => {
  const { fill: _, hatch: __, ...line } = planeWallStyle(wall);
  if (wall.passage === 'free') return { ...line, width: 0.15 };
  if (wall.passage === 'barred') return { ...line, width: 0.5 };
  return { ...line, width: wall.firestop ? 0.8 : 0.45, dash: wall.firestop ? [2, 0.6] : [1, 0.7] };
};

/** What a cable takes on paper, mm. */
const CABLE = 1;

/** A wall thinner than this on paper is drawn as a line, mm. */
const THIN = 0.6;

/**
 * What a cable may do overhead: areas, walls, keep-outs and pathways in their patterns, and the words for them where
 * there is room. In mm of the building; `ground` lies under the cables, `words` over them.
 */
export function ceilingMarks(view: CeilingView): {
  readonly ground: readonly Mark[];
  readonly words: readonly Mark[];
} {
  const { plan, plane, scale } = view;
  const area = (points: readonly Point[], style: Style): Mark => ({
    op: 'line',
    closed: true,
    points,
    style,
  });
  const ground: Mark[] = [
    ...plane.ceilings
      .filter(({ zone }) => zone !== null)
      .map(({ outline, kind }) => area(outline, CEILING_STYLES[kind])),
    ...plane.keepouts.flatMap(({ kept, clearance }) =>
      clearance > 0 ? kept.map((points) => area(points, CLEARANCE_STYLE)) : [],
    ),
    ...plane.keepouts.map(({ outline }) => area(outline, KEEPOUT_STYLE)),
    ...inRank(plane.walls).map((wall) => area(wall.outline, wallStyleAt(wall, scale))),
    ...plane.faces.map((points): Mark => ({ op: 'line', points, style: FACE_STYLE })),
    ...plane.pathways.flatMap(({ kind, points }) => pathwayLines(kind, points, scale)),
  ];
  const field = makeField();
  for (const box of view.taken) take(field, box);
  const paper = ([x, y]: Point): Point => [x * scale, y * scale];
  for (const points of view.cables)
    for (const [i, p] of points.slice(1).entries())
      avoidLine(field, paper(points[i]!), paper(p), CABLE);
  const words = [
    ...keepoutTags(view, field),
    ...pathwayTags(view, field, plan),
    ...ceilingTags(view, field),
    ...wallTags(view, field),
  ];
  return { ground, words };
}

/** What is dearer lies over what is cheaper. */
const inRank = (walls: readonly PlaneWall[]): PlaneWall[] => {
  const rank = ({ passage, price }: PlaneWall) => (passage === 'barred' ? Infinity : price);
  return [...walls].sort((a, b) => (rank(a) === rank(b) ? 0 : rank(a) - rank(b)));
};

function wallStyleAt(wall: PlaneWall, scale: number): Style {
  const [a, b, c] = wall.outline as readonly [Point, Point, Point];
  const thickness = Math.min(sizeBetween(a, b), sizeBetween(b, c));
  return thickness * scale < THIN ? thinWallStyle(wall) : planeWallStyle(wall);
}

const sizeBetween = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

const SIZE = 2.1;
const LINE = 2.7;

/** Lines of words on a slip of paper, round a place of the building. */
function slip(
  { measure, scale }: CeilingView,
  lines: readonly string[],
  at: Point,
  ink: Ink,
  turn = 0,
): { readonly mark: Mark; readonly box: Box } {
  const { width, height } = sizeOf(measure, lines);
  const [x, y] = [width / 2, height / 2];
  const paper: Mark = {
    op: 'line',
    closed: true,
    points: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
    style: { fill: 'paper', opacity: 0.88 },
  };
  const text = lines.map(
    (line, i): Mark => ({
      op: 'text',
      at: [0, (i - (lines.length - 1) / 2) * LINE],
      text: line,
      size: SIZE,
      bold: i === 0,
      ink,
      align: 'centre',
      vertical: 'middle',
    }),
  );
  const middle: Point = [at[0] * scale, at[1] * scale];
  return {
    mark: { op: 'symbol', at, turn, marks: [paper, ...text] },
    box: turn === 0 ? boxAround(middle, width, height) : boxAround(middle, height, width),
  };
}

const sizeOf = (measure: TextMeasure, lines: readonly string[]) => ({
  width: Math.max(...lines.map((line, i) => measure.width(line, SIZE, 'sans', i === 0))) + 1.2,
  height: lines.length * LINE + 0.4,
});

/** Each ceiling's words inside its room: all of them, or the first two, or what the room has room for. */
function ceilingTags(view: CeilingView, field: Field): Mark[] {
  const { plan, plane, units, measure, scale } = view;
  return plane.ceilings.flatMap((ceiling) => {
    if (ceiling.zone === null) return [];
    const name = plan.tables.zones.get(ceiling.zone)?.name ?? '';
    const [travel, at, factor] = ceilingWords(ceiling).map((m) => renderMessage(m, units)) as [
      string,
      string,
      string,
    ];
    const named = name === '' ? [] : [name];
    const forms = [
      [...named, travel, `${at}, ${factor}`],
      [...named, travel, at, factor],
      [travel, at, factor],
      [at, factor],
    ];
    const outline = ceiling.outline.map(([x, y]): Point => [x * scale, y * scale]);
    for (const lines of forms) {
      const { width, height } = sizeOf(measure, lines);
      const box = freeInside({ field }, outline, width, height);
      if (!box) continue;
      take(field, box);
      const middle: Point = [(box.x0 + box.x1) / 2 / scale, (box.y0 + box.y1) / 2 / scale];
      return [slip(view, lines, middle, 'ink').mark];
    }
    return [];
  });
}

/** Where along a thing its words are tried. */
const SHARES = [0.5, 0.3, 0.7, 0.18, 0.82];

/** Words along a line, at the first place that is free; none where the line is shorter than they are. */
function tagAlong(
  view: CeilingView,
  field: Field,
  [a, b]: readonly [Point, Point],
  words: Message,
  ink: Ink,
): Mark[] {
  const { units, measure, scale } = view;
  const lines = [renderMessage(words, units)];
  const length = sizeBetween(a, b) * scale;
  if (length < sizeOf(measure, lines).width + 1) return [];
  const turn = Math.abs(b[1] - a[1]) > Math.abs(b[0] - a[0]) ? -90 : 0;
  for (const share of SHARES) {
    const at: Point = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
    const { mark, box } = slip(view, lines, at, ink, turn);
    if (!isFree(field, box)) continue;
    take(field, box);
    return [mark];
  }
  return [];
}

/** What walls take, along those that have a price or let nobody pass. */
function wallTags(view: CeilingView, field: Field): Mark[] {
  return view.plane.walls.flatMap((wall) => {
    if (wall.passage === 'free') return [];
    const ink = wall.passage === 'barred' ? 'warn' : 'ink';
    return tagAlong(view, field, middleLine(wall), wallWords(wall), ink);
  });
}

function middleLine({ outline }: PlaneWall): readonly [Point, Point] {
  const [a, b, c, d] = outline as readonly [Point, Point, Point, Point];
  const half = (p: Point, q: Point): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  const long = sizeBetween(a, b) >= sizeBetween(b, c);
  return long ? [half(a, d), half(b, c)] : [half(a, b), half(d, c)];
}

function keepoutTags(view: CeilingView, field: Field): Mark[] {
  const { plan, plane, units, scale } = view;
  return plane.keepouts.flatMap((keepout) => {
    const name = plan.tables.keepouts.get(keepout.keepout)?.name || 'Keep-out';
    const lines = renderMessage(keepoutWords(keepout, name), units).split(': ');
    const xs = keepout.outline.map((p) => p[0]);
    const ys = keepout.outline.map((p) => p[1]);
    const x = (Math.min(...xs) + Math.max(...xs)) / 2;
    const over = sizeOf(view.measure, lines).height / 2 / scale;
    for (const y of [(Math.min(...ys) + Math.max(...ys)) / 2, Math.max(...ys) + over]) {
      const { mark, box } = slip(view, lines, [x, y], 'warn');
      if (!isFree(field, box)) continue;
      take(field, box);
      return [mark];
    }
    return [];
  });
}

function pathwayTags(view: CeilingView, field: Field, plan: Plan): Mark[] {
  return view.plane.pathways.flatMap((way) => {
    const row = plan.tables.pathways.get(way.pathway);
    if (!row) return [];
    const pieces = way.points.slice(1).map((b, i) => [way.points[i]!, b] as const);
    const [longest] = pieces.sort((p, q) => sizeBetween(...q) - sizeBetween(...p));
    return tagAlong(view, field, longest!, pathwayWords(way, pathwayName(row)), 'ink');
  });
}
