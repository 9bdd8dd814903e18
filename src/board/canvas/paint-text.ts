import type { Ink } from '../../drawing/display.ts';
import { CAP_HEIGHT } from '../../drawing/measure.ts';
import { at, type Frame, type Of, type Paint } from './paint.ts';

const FACES = {
  sans: '"Atkinson Hyperlegible Next", system-ui, sans-serif',
  mono: '"Atkinson Hyperlegible Mono", ui-monospace, monospace',
} as const;

/** Type smaller than this cannot be read and only makes the drawing grey, px. */
const LEAST_TYPE = 4;

/** One line of type, with a halo where it asks for one. */
export function paintText(paint: Paint, mark: Of<'text'>, frame: Frame): void {
  const { context, palette, paper } = paint;
  const size = mark.size * paper;
  if (size < LEAST_TYPE || mark.text === '') return;
  const [x, y] = at(frame, mark.at);
  if (x < -600 || y < -200 || x > paint.width + 600 || y > paint.height + 200) return;
  const turn = ((mark.turn ?? 0) * Math.PI) / 180 + Math.atan2(frame.sin, frame.cos);
  context.font = `${mark.bold ? 700 : 400} ${size}px ${FACES[mark.face ?? 'sans']}`;
  context.fontKerning = 'none';
  context.textAlign = mark.align === 'centre' ? 'center' : (mark.align ?? 'left');
  context.textBaseline = 'alphabetic';
  const drop = mark.vertical === 'middle' ? (CAP_HEIGHT / 2) * size : 0;
  if (turn !== 0) {
    context.save();
    context.translate(x, y);
    context.rotate(turn);
    write(paint, mark.text, 0, drop, mark.ink, mark.halo);
    context.restore();
  } else write(paint, mark.text, x, y + drop, mark.ink, mark.halo);

  function write(to: Paint, text: string, tx: number, ty: number, ink: Ink, halo?: Ink): void {
    if (halo) {
      to.context.strokeStyle = palette[halo];
      to.context.lineWidth = 0.7 * paper;
      to.context.lineJoin = 'round';
      to.context.strokeText(text, tx, ty);
    }
    to.context.fillStyle = palette[ink];
    to.context.fillText(text, tx, ty);
  }
}
