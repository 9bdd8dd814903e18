import { formatLength, type Units } from '../base/units.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { openingsOn, placeAlong } from '../plan/openings.ts';
import { type Dimension, type Note, type Opening, onLevel, type Wall } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import type { Mark, Style, TextMeasure } from './display.ts';
import { avoidBox } from './label-place.ts';
import { type Drafting, toPaper } from './plan-view.ts';

const LEAF: Style = { stroke: 'ink', width: 0.25 };
const SWING: Style = { stroke: 'soft', width: 0.13 };
const JAMB: Style = { stroke: 'ink', width: 0.3 };
const GLASS: Style = { stroke: 'ink', width: 0.18 };
/** No opening is cut narrower than the thinnest wall that is drawn, mm of paper. */
const LEAST_CUT = 1.05;

/** A wall's own directions at an opening: along from a to b, and across to the right of it as drawn. */
interface Frame {
  readonly at: Point;
  readonly u: Point;
  readonly n: Point;
  readonly half: number;
  readonly width: number;
}

function frameOf(wall: Wall, { along, width }: Opening, thickness: number): Frame {
  const length = distance(wall.a, wall.b) || 1;
  const u: Point = [(wall.b[0] - wall.a[0]) / length, (wall.b[1] - wall.a[1]) / length];
  return { at: placeAlong(wall, along), u, n: [-u[1], u[0]], half: thickness / 2, width };
}

const put = ({ at, u, n }: Frame, x: number, y: number): Point => [
  at[0] + u[0] * x + n[0] * y,
  at[1] + u[1] * x + n[1] * y,
];

/** The outline of the stretch of wall that an opening takes, four corners. */
export function openingOutline(wall: Wall, opening: Opening): readonly Point[] {
  const frame = frameOf(wall, opening, wall.thickness);
  const [w, t] = [opening.width / 2, wall.thickness / 2];
  return [put(frame, -w, -t), put(frame, w, -t), put(frame, w, t), put(frame, -w, t)];
}

/**
 * Doors, windows and openings: the wall is cut to paper, with jambs at both sides; a door shows its leaf and the way it
 * opens, a window its panes.
 */
export function openingMarks(drafting: Drafting): void {
  const { plan, view, field, wants, put: draw } = drafting;
  if (!wants('openings')) return;
  for (const { opening, wall } of openingsOn(plan, view.level)) {
    const frame = frameOf(wall, opening, Math.max(wall.thickness, LEAST_CUT / view.scale));
    draw('openings', ...openingShape(frame, opening));
    if (opening.kind !== 'door') continue;
    const [x, y] = toPaper(view, put(frame, 0, sideOf(opening) * (frame.half + opening.width / 2)));
    const size = opening.width * view.scale;
    avoidBox(field, boxAround([x, y], size, size));
  }
}

/** The right of the way from a to b is below it as drawn, where across is above zero. */
const sideOf = ({ side }: Opening): 1 | -1 => (side === 'right' ? 1 : -1);

function openingShape(frame: Frame, opening: Opening): Mark[] {
  const w = frame.width / 2;
  // A little more than the wall, so that no edge of it stays.
  const t = frame.half * 1.04;
  const cut: Mark = {
    op: 'line',
    closed: true,
    points: [put(frame, -w, -t), put(frame, w, -t), put(frame, w, t), put(frame, -w, t)],
    style: { fill: 'paper' },
  };
  const jambs = [-w, w].map(
    (x): Mark => ({ op: 'line', points: [put(frame, x, -t), put(frame, x, t)], style: JAMB }),
  );
  if (opening.kind === 'door') return [cut, ...jambs, ...doorMarks(frame, opening)];
  if (opening.kind === 'opening') return [cut, ...jambs];
  const panes = [-frame.half, 0, frame.half].map(
    (y): Mark => ({ op: 'line', points: [put(frame, -w, y), put(frame, w, y)], style: GLASS }),
  );
  return [cut, ...jambs, ...panes];
}

/** How many straight pieces the arc of a door's way is drawn with. */
const PIECES = 10;

function doorMarks(frame: Frame, opening: Opening): Mark[] {
  const side = sideOf(opening);
  const hinge = opening.hinge === 'a' ? -1 : 1;
  const face = side * frame.half;
  const x = (hinge * frame.width) / 2;
  const arc = Array.from({ length: PIECES + 1 }, (_, i): Point => {
    const turn = (i / PIECES) * (Math.PI / 2);
    return put(
      frame,
      x - hinge * Math.sin(turn) * frame.width,
      face + side * Math.cos(turn) * frame.width,
    );
  });
  return [
    { op: 'line', points: [put(frame, x, face), arc[0]!], style: LEAF },
    { op: 'line', points: arc, style: SWING },
  ];
}

const NOTE_SIZE = 2.4;
const NOTE_LINE = 2.9;
/** The room that a note's words keep round themselves, mm of paper. */
const NOTE_AIR = 0.8;

/** The box of a note's words round their middle, mm of paper. */
export function noteSize(measure: TextMeasure, text: string): { width: number; height: number } {
  const lines = text.split('\n');
  const widths = lines.map((line) => measure.width(line, NOTE_SIZE, 'sans', false));
  return {
    width: Math.max(...widths) + 2 * NOTE_AIR,
    height: lines.length * NOTE_LINE + 2 * NOTE_AIR,
  };
}

/** Notes and dimension lines, where they were put: they take their room before any label does. */
export function noteMarks(drafting: Drafting): void {
  const { plan, view, field, units, wants, put: draw } = drafting;
  if (!wants('notes')) return;
  for (const row of onLevel(plan, 'dimensions', view.level))
    draw('notes', ...dimensionMarks(row, units, view.scale));
  for (const note of onLevel(plan, 'notes', view.level)) {
    const size = noteSize(view.measure, note.text);
    avoidBox(field, boxAround(toPaper(view, note.at), size.width, size.height));
    draw('notes', ...notePictures(note, size, view.scale));
  }
}

function notePictures(
  note: Note,
  { width, height }: { width: number; height: number },
  scale: number,
): Mark[] {
  const lines = note.text.split('\n');
  const box: Mark = {
    op: 'line',
    closed: true,
    points: [
      [-width / 2, -height / 2],
      [width / 2, -height / 2],
      [width / 2, height / 2],
      [-width / 2, height / 2],
    ],
    style: { fill: 'paper', stroke: 'soft', width: 0.18 },
  };
  const words = lines.map(
    (text, i): Mark => ({
      op: 'text',
      at: [0, (i - (lines.length - 1) / 2) * NOTE_LINE],
      text,
      size: NOTE_SIZE,
      ink: 'ink',
      align: 'centre',
      vertical: 'middle',
    }),
  );
  const symbol: Mark = {
    op: 'symbol',
    at: note.at,
    marks: [box, ...words],
  };
  if (!note.to) return [symbol];
  const dot: Mark = { op: 'circle', at: [0, 0], radius: 0.5, style: { fill: 'ink' } };
  return [
    { op: 'line', points: [edgeOf(note, width / scale, height / scale), note.to], style: LEAF },
    { op: 'symbol', at: note.to, marks: [dot] },
    symbol,
  ];
}

/** Where the line from a note leaves its box. */
function edgeOf({ at, to }: Note, width: number, height: number): Point {
  const [dx, dy] = [to![0] - at[0], to![1] - at[1]];
  const reach = Math.max(Math.abs(dx) / (width / 2), Math.abs(dy) / (height / 2));
  return reach <= 1 ? at : [at[0] + dx / reach, at[1] + dy / reach];
}

/** The ends of a dimension line, aside of the places that it measures. */
export function dimensionLine({ a, b, aside }: Dimension): readonly [Point, Point] {
  const length = distance(a, b) || 1;
  // To the left of the way as drawn: y runs down.
  const [nx, ny] = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
  return [
    [a[0] + nx * aside, a[1] + ny * aside],
    [b[0] + nx * aside, b[1] + ny * aside],
  ];
}

/** How far the thin lines go past the dimension line and stay off what it measures, and half of its bars, mm of paper. */
const PAST = 1;
const OFF = 0.8;
const BAR = 0.9;
const FIGURE = 2.3;

function dimensionMarks(row: Dimension, units: Units, scale: number): Mark[] {
  const { a, b, aside } = row;
  const [p, q] = dimensionLine(row);
  const length = distance(a, b) || 1;
  const [nx, ny] = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
  const way = Math.sign(aside);
  const shift = (at: Point, by: number): Point => [
    at[0] + (nx * way * by) / scale,
    at[1] + (ny * way * by) / scale,
  ];
  const lines = [
    [a, p],
    [b, q],
  ].flatMap(([from, to]): Mark[] =>
    Math.abs(aside) * scale <= OFF
      ? []
      : [{ op: 'line', points: [shift(from!, OFF), shift(to!, PAST)], style: SWING }],
  );
  const slant = Math.PI / 4 + Math.atan2(q[1] - p[1], q[0] - p[0]);
  const [bx, by] = [Math.cos(slant) * BAR, Math.sin(slant) * BAR];
  const bars = [p, q].map(
    (at): Mark => ({
      op: 'symbol',
      at,
      marks: [
        {
          op: 'line',
          points: [
            [-bx, -by],
            [bx, by],
          ],
          style: { stroke: 'ink', width: 0.35 },
        },
      ],
    }),
  );
  return [...lines, { op: 'line', points: [p, q], style: GLASS }, ...bars, figure(p, q, units)];
}

/** The length, over the line and readable from below or from the right. */
function figure(p: Point, q: Point, units: Units): Mark {
  const degrees = (Math.atan2(q[1] - p[1], q[0] - p[0]) * 180) / Math.PI;
  const turn = degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;
  const rad = (turn * Math.PI) / 180;
  return {
    op: 'symbol',
    at: [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2],
    marks: [
      {
        op: 'text',
        at: [Math.sin(rad) * 1.5, -Math.cos(rad) * 1.5],
        text: formatLength(distance(p, q), units),
        size: FIGURE,
        face: 'mono',
        ink: 'ink',
        align: 'centre',
        vertical: 'middle',
        turn,
        halo: 'paper',
      },
    ],
  };
}
