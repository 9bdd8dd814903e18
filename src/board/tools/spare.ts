import { msg } from '../../base/message.ts';
import { spotTool } from '../gestures/spot.ts';

export const spare = spotTool({
  id: 'spare',
  label: msg('Spare jack'),
  key: 'j',
  snaps: ['grid', 'aligned'],
  hint: msg('Click near a wall: the jack goes on its face.'),
  once: false,
  call: (at, { level }) => ({ name: 'place-spare', args: { level, at } }),
});
