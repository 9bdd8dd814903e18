import type { Mark } from '../../drawing/display.ts';
import { at, type Frame, type Of, type Paint } from './paint.ts';
import { paintPicture } from './paint-picture.ts';
import { paintCircle, paintLine, trace } from './paint-shape.ts';
import { paintText } from './paint-text.ts';

/** Draws a display list. */
export function paintMarks(paint: Paint, marks: readonly Mark[], frame: Frame): void {
  for (const mark of marks) {
    switch (mark.op) {
      case 'line':
        paintLine(paint, mark, frame);
        break;
      case 'circle':
        paintCircle(paint, mark, frame);
        break;
      case 'text':
        paintText(paint, mark, frame);
        break;
      case 'symbol':
        paintSymbol(paint, mark, frame);
        break;
      case 'group':
        paintGroup(paint, mark, frame);
        break;
      case 'picture':
        paintPicture(paint, mark, frame);
        break;
    }
  }
}

/** Symbols reach at most this far from their place, paper mm. */
const SYMBOL_REACH = 40;

function paintSymbol(paint: Paint, mark: Of<'symbol'>, frame: Frame): void {
  const [x, y] = at(frame, mark.at);
  const reach = SYMBOL_REACH * paint.paper;
  if (x < -reach || y < -reach || x > paint.width + reach || y > paint.height + reach) return;
  const angle = ((mark.turn ?? 0) * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  paintMarks(paint, mark.marks, { scale: paint.paper, cos, sin, x, y });
}

function paintGroup(paint: Paint, mark: Of<'group'>, frame: Frame): void {
  const [x, y] = at(frame, mark.at);
  const inner: Frame = { ...frame, scale: frame.scale * mark.scale, x, y };
  const { context } = paint;
  context.save();
  if (mark.clip) {
    trace(context, mark.clip, inner, true);
    context.clip();
  }
  paintMarks(paint, mark.marks, inner);
  context.restore();
}
