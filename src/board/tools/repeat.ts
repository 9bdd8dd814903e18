import { msg } from '../../base/message.ts';
import { FOOT } from '../../base/units.ts';
import { lineTool } from '../gestures/line.ts';
import type { ToolEffect } from './tool.ts';

/** How far apart they are unless the shelf says otherwise: 4 ft. */
const STEP = 4 * FOOT;

/** One of what is selected every so far along a line: the option is the step in mm. */
export const repeat = lineTool({
  id: 'repeat',
  label: msg('Repeat along a line'),
  key: '',
  snaps: ['grid', 'end', 'middle', 'face', 'edge', 'right-angle', 'aligned'],
  hint: msg('Click where the first of them stands: along a counter, a wall, a line of your own.'),
  stays: false,
  measured: true,
  end: (a, b, { selection, option }): readonly ToolEffect[] => {
    if (selection.length === 0)
      return [{ do: 'say', message: msg('Select what is to be repeated first.') }, { do: 'done' }];
    const step = Number(option) > 0 ? Number(option) : STEP;
    return [
      { do: 'run', command: { name: 'repeat-along', args: { refs: selection, a, b, step } } },
      { do: 'done' },
    ];
  },
});
