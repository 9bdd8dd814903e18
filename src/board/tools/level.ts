import { msg } from '../../base/message.ts';
import { pictureUnder } from '../gestures/known-length.ts';
import { lineTool } from '../gestures/line.ts';

/** A line along what should be level or plumb on a background; the background is turned until it is. */
export const level = lineTool({
  id: 'level',
  label: msg('Level the background'),
  key: '',
  hint: msg('Click one end of a long wall that should be level or plumb.'),
  snaps: [],
  stays: false,
  measured: false,
  end: (a, b, context) => {
    const picture = pictureUnder(a, context);
    if (!picture) return [{ do: 'say', message: msg('Bring a plan first.') }];
    const args = { background: picture.id, a, b };
    return [{ do: 'run', command: { name: 'level-background', args } }, { do: 'done' }];
  },
});
