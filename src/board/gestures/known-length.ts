import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { toPicture } from '../../plan/commands/base.ts';
import { type Background, onLevel } from '../../plan/plan.ts';
import type { ToolContext, ToolEffect } from '../tools/tool.ts';
import { lineTool } from './line.ts';

/** The background that a line is drawn on: the one that the shelf named, the topmost under its beginning, or the last. */
function pictureUnder(at: Point, { plan, level, option }: ToolContext): Background | null {
  const shown = onLevel(plan, 'backgrounds', level).filter((picture) => !picture.hidden);
  const under = shown.filter((picture) => {
    const [x, y] = toPicture(picture, at);
    return x >= 0 && y >= 0 && x <= picture.width && y <= picture.height;
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
    // The drawing's own lines say nothing of the picture beneath; only a level or plumb line helps.
    snaps: ['right-angle'],
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
