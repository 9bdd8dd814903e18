import { type Part, WHOLE } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import { at, deviceRatio, type Frame, type Of, type Paint } from './paint.ts';

/** A picture with its seen upper left corner at its place, tilted about its middle; while it is loading, its border. */
export function paintPicture(paint: Paint, mark: Of<'picture'>, frame: Frame): void {
  const { context, palette } = paint;
  const across = mark.turn === 90 || mark.turn === 270;
  const [x, y] = at(frame, mark.at);
  const w = mark.width * frame.scale;
  const h = mark.height * frame.scale;
  const [seenW, seenH] = across ? [h, w] : [w, h];
  const middle: Point = [x + seenW / 2, y + seenH / 2];
  const angle = ((mark.turn + (mark.tilt ?? 0)) * Math.PI) / 180;
  const shown = mark.part ?? WHOLE;
  const seen = seenPart(paint, middle, angle, w, h, shown);
  if (!seen) return;
  const ratio = deviceRatio(context);
  const pieces = paint.picture({
    key: mark.asset,
    place: mark.at.join(),
    seen,
    width: w * ratio,
    height: h * ratio,
  });
  const [cos, sin] = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))];
  const around = [w * cos + h * sin, w * sin + h * cos] as const;
  const negative = paint.negative && !mark.photo && pieces.length > 0;
  if (negative) invert(paint, middle, around);
  context.save();
  context.translate(...middle);
  context.rotate(angle);
  const box = (of: Part) =>
    [(of.x0 - 0.5) * w, (of.y0 - 0.5) * h, (of.x1 - of.x0) * w, (of.y1 - of.y0) * h] as const;
  if (pieces.length === 0) {
    context.strokeStyle = palette.faint;
    context.lineWidth = 1;
    context.strokeRect(...box(shown));
  }
  context.globalAlpha *= mark.opacity * paint.strength;
  context.imageSmoothingQuality = 'high';
  // Only what is seen of the shown part: a finer piece takes the place of what lies under it.
  for (const [i, { image, part }] of pieces.entries()) {
    const over = pieces[i + 1]?.part;
    for (const rest of over ? without(overlap(part, shown), over) : [overlap(part, shown)]) {
      const own = overlap(rest, part);
      if (own.x1 <= own.x0 || own.y1 <= own.y0) continue;
      const sx = image.width / (part.x1 - part.x0);
      const sy = image.height / (part.y1 - part.y0);
      context.drawImage(
        image,
        (own.x0 - part.x0) * sx,
        (own.y0 - part.y0) * sy,
        (own.x1 - own.x0) * sx,
        (own.y1 - own.y0) * sy,
        ...box(own),
      );
    }
  }
  context.restore();
  if (negative) invert(paint, middle, around);
}

/**
 * Turns all that is painted in a box into its negative. Done before a picture and again after it, it leaves the paper
 * as it was and the picture as its negative, as strong as it was painted. The box ends on whole pixels of the canvas,
 * since a pixel that is covered in part would not come back.
 */
function invert({ context, width, height }: Paint, [x, y]: Point, [w, h]: Point): void {
  const ratio = deviceRatio(context);
  const x0 = Math.max(0, Math.floor((x - w / 2) * ratio)) / ratio;
  const y0 = Math.max(0, Math.floor((y - h / 2) * ratio)) / ratio;
  const x1 = Math.min(Math.ceil(width * ratio), Math.ceil((x + w / 2) * ratio)) / ratio;
  const y1 = Math.min(Math.ceil(height * ratio), Math.ceil((y + h / 2) * ratio)) / ratio;
  if (x1 <= x0 || y1 <= y0) return;
  context.save();
  context.globalCompositeOperation = 'difference';
  context.globalAlpha = 1;
  context.fillStyle = '#ffffff';
  context.fillRect(x0, y0, x1 - x0, y1 - y0);
  context.restore();
}

const overlap = (a: Part, b: Part): Part => ({
  x0: Math.max(a.x0, b.x0),
  y0: Math.max(a.y0, b.y0),
  x1: Math.min(a.x1, b.x1),
  y1: Math.min(a.y1, b.y1),
});

/** What is left of a part without another: up to four parts, above, left, right and below. */
function without(part: Part, hole: Part): Part[] {
  const cut = overlap(part, hole);
  if (cut.x1 <= cut.x0 || cut.y1 <= cut.y0) return [part];
  return [
    { ...part, y1: cut.y0 },
    { x0: part.x0, y0: cut.y0, x1: cut.x0, y1: cut.y1 },
    { x0: cut.x1, y0: cut.y0, x1: part.x1, y1: cut.y1 },
    { ...part, y0: cut.y1 },
  ];
}

/** What of the shown part of a picture lies on the board, in shares of the picture; null where nothing does. */
function seenPart(
  { width, height }: Paint,
  [mx, my]: Point,
  angle: number,
  w: number,
  h: number,
  shown: Part,
): Part | null {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const us: number[] = [];
  const vs: number[] = [];
  for (const [x, y] of [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const) {
    us.push(((x - mx) * cos + (y - my) * sin) / w + 0.5);
    vs.push((-(x - mx) * sin + (y - my) * cos) / h + 0.5);
  }
  const part = overlap(shown, {
    x0: Math.min(...us),
    y0: Math.min(...vs),
    x1: Math.max(...us),
    y1: Math.max(...vs),
  });
  return part.x0 < part.x1 && part.y0 < part.y1 ? part : null;
}
