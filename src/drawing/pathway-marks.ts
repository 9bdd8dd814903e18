import type { Point } from '../geometry/point.ts';
import { pathwayName } from '../plan/names.ts';
import { onLevel, type Pathway } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import type { Mark } from './display.ts';
import { avoidLine, isFree, place, take } from './label-place.ts';
import { wrapText } from './measure.ts';
import { pathwayLines } from './pathway-lines.ts';
import { type Drafting, toBuilding, toPaper } from './plan-view.ts';
import { leaderMark } from './put-symbol.ts';

/** Drawn pathways, each kind in its own pattern. */
export function pathwayMarks({ plan, view, field, wants, put }: Drafting): void {
  if (!wants('pathways')) return;
  for (const pathway of onLevel(plan, 'pathways', view.level)) {
    const paper = pathway.points.map((p) => toPaper(view, p));
    for (let i = 1; i < paper.length; i++) avoidLine(field, paper[i - 1]!, paper[i]!, 2.6);
    put('pathways', ...pathwayLines(pathway.kind, pathway.points, view.scale));
  }
}

const NAME_SIZE = 2;

/** Names and sizes of pathways, as schedules call them, along their longest piece, where there is room. */
export function pathwayNames(drafting: Drafting): void {
  const { plan, view, field, wants, put } = drafting;
  if (!wants('pathways') || view.notes === false) return;
  for (const pathway of onLevel(plan, 'pathways', view.level)) {
    const words = [pathwayName(pathway), pathway.size].filter((word) => word !== '').join(', ');
    const [a, b] = longest(pathway).map((p) => toPaper(view, p)) as [Point, Point];
    const upright = Math.abs(b[1] - a[1]) > Math.abs(b[0] - a[0]);
    const long = view.measure.width(words, NAME_SIZE, 'sans', false) + 0.6;
    const [width, height] = upright ? [2.4, long] : [long, 2.4];
    const spots = [0.5, 0.35, 0.65, 0.25, 0.75].flatMap((t): Point[] => {
      const x = a[0] + (b[0] - a[0]) * t;
      const y = a[1] + (b[1] - a[1]) * t;
      return upright
        ? [
            [x - 3, y],
            [x + 3, y],
          ]
        : [
            [x, y - 3],
            [x, y + 3],
          ];
    });
    const at =
      spots.find((p) => isFree(field, boxAround(p, width, height), true)) ??
      spots.find((p) => isFree(field, boxAround(p, width, height)));
    if (!at) {
      pathwayNote(drafting, words, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
      continue;
    }
    take(field, boxAround(at, width, height));
    const text: Mark = {
      op: 'text',
      at: [0, 0],
      text: words,
      size: NAME_SIZE,
      ink: 'soft',
      align: 'centre',
      vertical: 'middle',
      turn: upright ? -90 : 0,
      halo: 'paper',
    };
    put('pathways', { op: 'symbol', at: toBuilding(view, at), marks: [text] });
  }
}

/** A pathway's name in short lines where there is room, with a line to it. */
function pathwayNote(drafting: Drafting, words: string, anchor: Point): void {
  const { view, field, put, leaveOut } = drafting;
  const lines = wrapText(view.measure, words, 20, NAME_SIZE);
  const width = Math.max(
    ...lines.map((line) => view.measure.width(line, NAME_SIZE, 'sans', false)),
  );
  const wish = {
    anchor,
    reach: 1.4,
    width: width + 0.6,
    height: lines.length * 2.3 + 0.4,
    onAnchor: false,
  };
  const placed = place(field, { ...wish, clear: true }) ?? place(field, wish);
  if (!placed) {
    leaveOut('pathways', words);
    return;
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, 'soft'));
  const marks = lines.map(
    (text, i): Mark => ({
      op: 'text',
      at: [0, (i - (lines.length - 1) / 2) * 2.3],
      text,
      size: NAME_SIZE,
      ink: 'soft',
      align: 'centre',
      vertical: 'middle',
      halo: 'paper',
    }),
  );
  put('pathways', { op: 'symbol', at: toBuilding(view, placed.at), marks });
}

function longest(pathway: Pathway): [Point, Point] {
  let best: [Point, Point] = [pathway.points[0]!, pathway.points[1]!];
  let most = -1;
  for (let i = 1; i < pathway.points.length; i++) {
    const a = pathway.points[i - 1]!;
    const b = pathway.points[i]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length > most) {
      most = length;
      best = [a, b];
    }
  }
  return best;
}
