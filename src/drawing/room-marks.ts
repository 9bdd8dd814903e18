import { msg, renderMessage } from '../base/message.ts';
import type { Steps } from '../base/steps.ts';
import { wallCorners } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import { inLayers, shownPart } from '../plan/picture-place.ts';
import { type Background, onLevel, type Wall, type Zone } from '../plan/plan.ts';
import { type Box, boxAround, overlaps } from './box-grid.ts';
import { areaInk, type Ink, type Mark, type Part, pictureKey, type Style } from './display.ts';
import { avoidBox, avoidWall, isFree, take } from './label-place.ts';
import { CAP_HEIGHT, wrapText } from './measure.ts';
import { type Drafting, inOneLine, type PlanView, toPaper } from './plan-view.ts';

/** Pictures under the drawing, as they were scaled, turned and faded. */
export function backgroundMarks({ plan, view, wants, put }: Drafting): void {
  if (!wants('background')) return;
  for (const picture of inLayers(plan, view.level)) {
    if (picture.hidden) continue;
    put('background', {
      op: 'picture',
      at: picture.origin,
      width: picture.width * picture.mmPerPixel,
      height: picture.height * picture.mmPerPixel,
      turn: picture.turn,
      ...(picture.tilt === 0 ? {} : { tilt: picture.tilt }),
      ...(picture.crop ? { part: partOf(picture) } : {}),
      opacity: picture.opacity / 100,
      ...(picture.photo ? { photo: true } : {}),
      asset: pictureKey(picture.asset, picture.page),
    });
  }
}

/** What is shown of a picture, in shares of its width and height. */
function partOf(picture: Background): Part {
  const { x0, y0, x1, y1 } = shownPart(picture);
  const { width: w, height: h } = picture;
  return { x0: x0 / w, y0: y0 / h, x1: x1 / w, y1: y1 / h };
}

/**
 * How strong a fill over a picture is, 0 to 1. A deep ink thinned so far looks like its tint on paper, and takes a tenth
 * of the contrast of the lines beneath it, so that inner walls can still be traced.
 */
export const OVER_PICTURE = 0.1;

/** Rooms: the tint of their service area; under a hard ceiling fine lines, since nobody gets above it. */
export function zoneMarks(drafting: Drafting): void {
  const { plan, view, wants, put } = drafting;
  if (!wants('zones')) return;
  const over = overPicture(drafting);
  for (const zone of onLevel(plan, 'zones', view.level)) {
    const [op, closed, points] = ['line', true, zone.outline] as const;
    for (const style of filled(zoneStyle(zone), `area-${areaInk(zone.area)}`, over))
      put('zones', { op, closed, points, style });
  }
}

/** Whether a picture shows beneath what is drawn on the level. */
const overPicture = ({ plan, view, wants }: Drafting): boolean =>
  (view.overPictures ?? wants('background')) &&
  inLayers(plan, view.level).some((picture) => !picture.hidden);

/** A filled style as it is, or over a picture in two: a thin fill of a deep ink that shows it, then hatch and outline. */
function filled(style: Style, deep: Ink, over: boolean): Style[] {
  if (!over) return [style];
  const { fill: _, ...lines } = style;
  return [{ fill: deep, opacity: OVER_PICTURE }, lines];
}

/** How a room is filled: the tint of its service area, hatched under a closed ceiling. */
export const zoneStyle = (zone: Pick<Zone, 'area' | 'ceiling'>): Style => ({
  fill: `tint-${areaInk(zone.area)}`,
  stroke: 'faint',
  width: 0.13,
  ...(zone.ceiling.kind === 'hard' ? { hatch: 'diagonal' } : {}),
});

export const KEEPOUT_STYLE: Style = {
  stroke: 'warn',
  width: 0.2,
  dash: [2.2, 1.1],
  hatch: 'cross',
  fill: 'warn-paper',
};

/** Keep-outs: cross lines and a dashed border, with the name on top. */
export function keepoutMarks(drafting: Drafting): void {
  const { plan, view, field, wants, put } = drafting;
  if (!wants('keepouts')) return;
  const styles = filled(KEEPOUT_STYLE, 'warn', overPicture(drafting));
  for (const keepout of onLevel(plan, 'keepouts', view.level)) {
    avoidBox(field, boundsOf(keepout.outline.map((p) => toPaper(view, p))));
    for (const style of styles)
      put('keepouts', { op: 'line', closed: true, points: keepout.outline, style });
  }
}

function boundsOf(points: readonly Point[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** No wall is drawn thinner than this on paper, mm; a rated one never thinner than the second. */
const LEAST_WALL = 0.5;
const LEAST_RATED = 1;

/** How a wall is filled. Ordinary ones run into one another; masonry and panels show their cut. */
export function wallStyles(wall: Pick<Wall, 'rated' | 'construction'>): Style[] {
  if (wall.rated)
    return [
      { fill: 'wall-rated', stroke: 'paper', width: 0.3, hatch: 'diagonal' },
      { stroke: 'wall-rated', width: 0.4 },
    ];
  if (wall.construction === 'masonry')
    return [{ fill: 'paper', stroke: 'ink', width: 0.35, hatch: 'diagonal' }];
  if (wall.construction === 'insulated')
    return [{ fill: 'paper', stroke: 'wall', width: 0.3, hatch: 'cross' }];
  return [{ fill: 'wall', stroke: 'wall', width: 0.1 }];
}

/** So many walls, or a tenth as many rooms, are drawn in one step. */
const AT_ONCE = 500;

/** Walls as filled boxes with their ends grown, so that corners close; rated ones on top, thick and hatched. */
export function* wallMarks({ plan, view, field, wants, put }: Drafting): Steps<void> {
  const walls = onLevel(plan, 'walls', view.level);
  const rank = (wall: Wall): number => (wall.rated ? 2 : wall.construction === 'framed' ? 1 : 0);
  for (const [i, wall] of walls.sort((a, b) => rank(a) - rank(b)).entries()) {
    if (i % AT_ONCE === 0) yield;
    const least = (wall.rated ? LEAST_RATED : LEAST_WALL) / view.scale;
    const thickness = Math.max(wall.thickness, least);
    avoidWall(field, toPaper(view, wall.a), toPaper(view, wall.b), thickness * view.scale);
    if (!wants('walls')) continue;
    const points = wallCorners(wall.a, wall.b, thickness);
    for (const style of wallStyles(wall)) put('walls', { op: 'line', closed: true, points, style });
  }
}

const CEILING_WORDS: Readonly<Record<Zone['ceiling']['kind'], string>> = {
  tile: 'TILE',
  open: 'OPEN',
  hard: 'HARD',
};

interface Tag {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

const NAME_SIZE = 2.3;
const NOTE_SIZE = 2;
const LETTER_SIZE = 3.8;

/** A word of more letters than this is no word that somebody reads, and may be broken. */
const LONGEST_WORD = 24;

/** How wide the widest word of a name is, paper mm: a room that is narrower has its letter rather than a broken word. */
const widestWord = ({ measure }: PlanView, name: string): number =>
  Math.max(
    0,
    ...name
      .split(/\s+/)
      .filter((word) => word.length <= LONGEST_WORD)
      .map((word) => measure.width(word, NAME_SIZE, 'sans', false)),
  );

/** How a tag is set: at most how wide unless a word is longer, and whether the words stand under the letter. */
interface TagForm {
  readonly room: number;
  readonly ceiling: boolean;
  readonly under?: boolean;
  /** The letter alone. */
  readonly nameless?: boolean;
}

/** A room's tag round its middle: the area's letter, the name in as few lines as its form allows, the ceiling. */
function zoneTag(drafting: Drafting, zone: Zone, form: TagForm): Tag {
  const { view, units } = drafting;
  const widthOf = (words: string): number => view.measure.width(words, NAME_SIZE, 'sans', false);
  const letterWidth = view.measure.width(zone.area, LETTER_SIZE, 'sans', true);
  const beside = form.under ? 0 : letterWidth + 1;
  const wide = Math.max(form.room - beside, widestWord(view, zone.name));
  const names = wrapText(view.measure, zone.name, wide, NAME_SIZE);
  const note = form.ceiling
    ? renderMessage(
        msg('{kind} {height}', {
          kind: CEILING_WORDS[zone.ceiling.kind],
          height: { mm: zone.ceiling.height },
        }),
        units,
      )
    : '';
  const textWidth = Math.max(
    0,
    ...names.map(widthOf),
    view.measure.width(note, NOTE_SIZE, 'sans', false),
  );
  const capital = LETTER_SIZE * CAP_HEIGHT;
  const below = form.under ? capital + 0.9 : 0;
  const lines = names.length * 2.6 + (note === '' ? 0 : 2.3);
  const height = Math.max(capital + 0.4, below + lines);
  const width = Math.max(letterWidth, textWidth > 0 ? beside + textWidth : 0);
  const left = -width / 2;
  const top = -height / 2;
  const text = (up: number, words: string, size: number): Mark => ({
    op: 'text',
    at: [left + beside, top + below + up],
    text: words,
    size,
    ink: 'soft',
    halo: 'paper',
  });
  const marks: Mark[] = [
    {
      op: 'text',
      at: [left, top + capital + 0.1],
      text: zone.area,
      size: LETTER_SIZE,
      bold: true,
      ink: `area-${areaInk(zone.area)}`,
    },
    ...names.map((line, i) => text(1.75 + i * 2.6, line, NAME_SIZE)),
  ];
  if (note !== '') marks.push(text(1.6 + names.length * 2.6, note, NOTE_SIZE));
  return { width, height, marks };
}

/** Whether a box lies wholly in a polygon: its corners, sides' middles and middle do. */
function boxInside(outline: readonly Point[], box: Box): boolean {
  const mx = (box.x0 + box.x1) / 2;
  const my = (box.y0 + box.y1) / 2;
  return [box.x0, mx, box.x1].every((x) =>
    [box.y0, my, box.y1].every((y) => insidePolygon(outline, x, y)),
  );
}

/** The first free place for a tag in an outline on paper: from its upper left in rows. */
export function freeInside(
  { field }: Pick<Drafting, 'field'>,
  outline: readonly Point[],
  width: number,
  height: number,
): Box | null {
  const around = boundsOf(outline);
  const x1 = around.x1 - 1.2 - width;
  const y1 = around.y1 - 1.2 - height;
  const x0 = around.x0 + 1.2;
  const y0 = around.y0 + 1.2;
  // Along no more than some dozens of places, however large the room is on paper.
  const dx = Math.max(1.5, (x1 - x0) / 24);
  const dy = Math.max(1.5, (y1 - y0) / 24);
  for (const soft of [true, false])
    for (let y = y0; y <= y1 + 0.01; y += dy)
      for (let x = x0; x <= x1 + 0.01; x += dx) {
        const box: Box = { x0: x, y0: y, x1: x + width, y1: y + height };
        if (!isFree(field, box, soft)) continue;
        if (boxInside(outline, box)) return box;
      }
  return null;
}

const tagMark = (drafting: Drafting, box: Box, tag: Tag): Mark => ({
  op: 'symbol',
  at: [(box.x0 + box.x1) / 2 / drafting.view.scale, (box.y0 + box.y1) / 2 / drafting.view.scale],
  marks: tag.marks,
});

/** A plate under a tag that stands on a keep-out's lines. */
const tagPlate = ({ width, height }: Tag, zone: Zone): Tag => ({
  width,
  height,
  marks: [
    {
      op: 'line',
      closed: true,
      points: boxCorners(boxAround([0, 0], width + 1, height + 1)),
      style: { fill: `tint-${areaInk(zone.area)}` },
    },
  ],
});

const boxCorners = ({ x0, y0, x1, y1 }: Box): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** The forms of a tag in the order in which they are tried. */
const TAG_FORMS: readonly TagForm[] = [
  { room: 40, ceiling: true },
  { room: 18, ceiling: true },
  { room: 11, ceiling: true },
  { room: 11, ceiling: true, under: true },
  { room: 18, ceiling: false },
  { room: 11, ceiling: false },
  { room: 11, ceiling: false, under: true },
  { room: 11, ceiling: false, nameless: true },
];

/** Names of rooms with area and ceiling, in free room; shorter where there is little, left out where there is none. */
export function* roomTags(drafting: Drafting): Steps<void> {
  const { plan, view, field, wants, put, leaveOut } = drafting;
  if (!wants('rooms')) return;
  keepoutNames(drafting);
  const keepouts = onLevel(plan, 'keepouts', view.level).map((keepout) =>
    boundsOf(keepout.outline.map((p) => toPaper(view, p))),
  );
  for (const [i, zone] of onLevel(plan, 'zones', view.level).entries()) {
    if (i % (AT_ONCE / 10) === 0) yield;
    const outline = zone.outline.map((p) => toPaper(view, p));
    let placed = false;
    for (const form of TAG_FORMS) {
      const tag = zoneTag(drafting, form.nameless ? { ...zone, name: '' } : zone, form);
      const box = freeInside(drafting, outline, tag.width, tag.height);
      if (!box) continue;
      take(field, box);
      if (keepouts.some((other) => overlaps(other, box)))
        put('rooms', tagMark(drafting, box, tagPlate(tag, zone)));
      put('rooms', tagMark(drafting, box, tag));
      placed = true;
      break;
    }
    if (!placed) leaveOut('rooms', zone.name || zone.area);
  }
}

function keepoutNames(drafting: Drafting): void {
  const { plan, view, field, put, leaveOut } = drafting;
  const names = new Set(onLevel(plan, 'zones', view.level).map((zone) => zone.name));
  for (const keepout of onLevel(plan, 'keepouts', view.level)) {
    if (keepout.name === '' || names.has(keepout.name)) continue;
    const outline = keepout.outline.map((p) => toPaper(view, p));
    const name = inOneLine(view, keepout.name, NAME_SIZE, true);
    const width = view.measure.width(name, NAME_SIZE, 'sans', true) + 1.4;
    const box =
      freeInside(drafting, outline, width, 3.2) ?? besideOutline(drafting, outline, width);
    if (!box) {
      leaveOut('keepouts', keepout.name);
      continue;
    }
    take(field, box);
    const marks: Mark[] = [
      {
        op: 'line',
        closed: true,
        points: [
          [-width / 2, -1.6],
          [width / 2, -1.6],
          [width / 2, 1.6],
          [-width / 2, 1.6],
        ],
        style: { fill: 'warn-paper' },
      },
      {
        op: 'text',
        at: [0, 0],
        text: name,
        size: NAME_SIZE,
        bold: true,
        ink: 'warn',
        align: 'centre',
        vertical: 'middle',
      },
    ];
    put('keepouts', tagMark(drafting, box, { width, height: 3.2, marks }));
  }
}

/** Room under or over a keep-out that is too small for its own name. */
function besideOutline(drafting: Drafting, outline: readonly Point[], width: number): Box | null {
  const around = boundsOf(outline);
  const middle = (around.x0 + around.x1) / 2;
  const places: Point[] = [
    [middle, around.y1 + 2.2],
    [middle, around.y0 - 2.2],
  ];
  return (
    places.map((at) => boxAround(at, width, 3.2)).find((box) => isFree(drafting.field, box)) ?? null
  );
}
