import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { inLayers, shownPart, toPicture } from '../../plan/picture-place.ts';
import type { Background } from '../../plan/plan.ts';
import type { ToolContext, ToolEffect } from '../tools/tool.ts';
import { lineTool } from './line.ts';

/** The background that a line is drawn on: the one that the shelf named, the topmost under its beginning, or the last. */
export function pictureUnder(at: Point, { plan, level, option }: ToolContext): Background | null {
  const shown = inLayers(plan, level).filter((picture) => !picture.hidden);
  const under = shown.filter((picture) => {
    const [x, y] = toPicture(picture, at);
    const { x0, y0, x1, y1 } = shownPart(picture);
    return x >= x0 && y >= y0 && x <= x1 && y <= y1;
  });
  return shown.find((picture) => picture.id === option) ?? under.at(-1) ?? shown.at(-1) ?? null;
}

/** A line along a known length of a background; its real length is asked for. */
export const knownLength = (parts: {
  id: string;
  label: Message;
  key: string;
  hint: Message;
  for: 'set-scale' | 'check-scale';
}) =>
  lineTool({
    ...parts,
    // What is drawn says nothing of the picture beneath: its own lines do, and a level or plumb line.
    snaps: ['right-angle', 'under-end', 'under-line'],
    stays: false,
    measured: false,
    end: (a, b, context): readonly ToolEffect[] => {
      const picture = pictureUnder(a, context);
      if (!picture)
        return [
          { do: 'say', message: msg('Bring a plan first: there is no background on this level.') },
        ];
      return [{ do: 'ask-length', for: parts.for, background: picture.id, a, b }, { do: 'done' }];
    },
  });
