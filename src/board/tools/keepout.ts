import { msg } from '../../base/message.ts';
import { rectangleTool } from '../gestures/rectangle.ts';

export const keepout = rectangleTool({
  id: 'keepout',
  label: msg('Keep-out'),
  key: 'x',
  snaps: ['grid', 'end', 'middle', 'face', 'edge', 'aligned', 'under-end', 'under-line'],
  hint: msg('Drag over a place where no cable may go: a hood, a walk-in, a stair.'),
  call: (outline, { level }) => ({ name: 'draw-keepout', args: { level, outline } }),
});
