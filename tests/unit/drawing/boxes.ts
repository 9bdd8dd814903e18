import type { Box } from '../../../src/drawing/box-grid.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { turned } from '../../../src/drawing/symbols.ts';
import type { Point } from '../../../src/geometry/point.ts';

/** Where the ink of marks lies: an own reckoning, apart from the one that placed them. */
interface Frame {
  readonly at: Point;
  readonly scale: number;
  readonly turn: number;
  readonly clip: Box | null;
}

const PAPER: Frame = { at: [0, 0], scale: 1, turn: 0, clip: null };

function toPage({ at, scale, turn }: Frame, p: Point): Point {
  const [x, y] = turned([p[0] * scale, p[1] * scale], turn);
  return [at[0] + x, at[1] + y];
}

export function hull(points: readonly Point[], grow = 0): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return {
    x0: Math.min(...xs) - grow,
    y0: Math.min(...ys) - grow,
    x1: Math.max(...xs) + grow,
    y1: Math.max(...ys) + grow,
  };
}

const within = (box: Box, clip: Box | null): Box | null => {
  if (!clip) return box;
  const cut = {
    x0: Math.max(box.x0, clip.x0),
    y0: Math.max(box.y0, clip.y0),
    x1: Math.min(box.x1, clip.x1),
    y1: Math.min(box.y1, clip.y1),
  };
  return cut.x0 > cut.x1 || cut.y0 > cut.y1 ? null : cut;
};

/** The corners of a text's capitals, on the page. */
function textBox(mark: Extract<Mark, { op: 'text' }>, frame: Frame): Box {
  const width = fontMeasure.width(mark.text, mark.size, mark.face ?? 'sans', mark.bold ?? false);
  const left = mark.align === 'right' ? -width : mark.align === 'centre' ? -width / 2 : 0;
  const cap = mark.size * 0.668;
  const bottom = mark.vertical === 'middle' ? cap / 2 : 0;
  const [x, y] = toPage(frame, mark.at);
  const corners: Point[] = [
    [left, bottom],
    [left + width, bottom],
    [left, bottom - cap],
    [left + width, bottom - cap],
  ];
  return hull(
    corners.map((corner) => {
      const [u, v] = turned(corner, frame.turn + (mark.turn ?? 0));
      return [x + u, y + v];
    }),
  );
}

/** The boxes that marks ink, on the page in paper mm. */
export const inkBoxes = (marks: readonly Mark[], frame: Frame = PAPER): Box[] =>
  marks.flatMap((mark) => boxesOf(mark, frame));

function boxesOf(mark: Mark, frame: Frame): Box[] {
  const cut = (box: Box): Box[] => {
    const seen = within(box, frame.clip);
    return seen ? [seen] : [];
  };
  switch (mark.op) {
    case 'line':
      return cut(
        hull(
          mark.points.map((p) => toPage(frame, p)),
          mark.style.stroke ? (mark.style.width ?? 0.25) / 2 : 0,
        ),
      );
    case 'circle': {
      const grow =
        mark.radius * frame.scale + (mark.style.stroke ? (mark.style.width ?? 0.25) / 2 : 0);
      return cut(hull([toPage(frame, mark.at)], grow));
    }
    case 'text':
      return cut(textBox(mark, frame));
    case 'picture': {
      const [w, h] = mark.turn % 180 === 0 ? [mark.width, mark.height] : [mark.height, mark.width];
      return cut(hull([toPage(frame, mark.at), toPage(frame, [mark.at[0] + w, mark.at[1] + h])]));
    }
    case 'symbol':
      return inkBoxes(mark.marks, {
        at: toPage(frame, mark.at),
        scale: 1,
        turn: frame.turn + (mark.turn ?? 0),
        clip: frame.clip,
      });
    case 'group': {
      const inner: Frame = {
        at: toPage(frame, mark.at),
        scale: frame.scale * mark.scale,
        turn: frame.turn,
        clip: frame.clip,
      };
      const clip = mark.clip ? hull(mark.clip.map((p) => toPage(inner, p))) : null;
      return inkBoxes(mark.marks, {
        ...inner,
        clip: clip && frame.clip ? within(clip, frame.clip) : (clip ?? frame.clip),
      });
    }
  }
}

/** One box round each symbol (a symbol, or a label that was placed as one), at a scale. */
export function symbolBoxes(marks: readonly Mark[], scale: number): Box[] {
  const frame: Frame = { at: [0, 0], scale, turn: 0, clip: null };
  return marks
    .filter((mark) => mark.op === 'symbol')
    .map((mark) => {
      const boxes = inkBoxes([mark], frame);
      return hull(
        boxes.flatMap((b): Point[] => [
          [b.x0, b.y0],
          [b.x1, b.y1],
        ]),
      );
    });
}

/** Pairs of boxes that cover each other by more than a hair. */
export function overlapping(boxes: readonly Box[]): [Box, Box][] {
  const pairs: [Box, Box][] = [];
  for (let i = 0; i < boxes.length; i++)
    for (let j = i + 1; j < boxes.length; j++) {
      const [a, b] = [boxes[i]!, boxes[j]!];
      const dx = Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
      const dy = Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
      if (dx > 0.05 && dy > 0.05) pairs.push([a, b]);
    }
  return pairs;
}

/** Every text in marks, in drawing order. */
export const textsOf = (marks: readonly Mark[]): string[] =>
  marks.flatMap((mark): string[] => {
    if (mark.op === 'text') return [mark.text];
    return mark.op === 'group' || mark.op === 'symbol' ? textsOf(mark.marks) : [];
  });
