import { msg } from '../../base/message.ts';
import { spotTool } from '../gestures/spot.ts';

export const closet = spotTool({
  id: 'closet',
  label: msg('Network closet'),
  key: 'n',
  snaps: ['grid', 'aligned'],
  hint: msg('Click where the rack or the panel hangs.'),
  once: true,
  call: (at, { level }) => ({ name: 'place-closet', args: { level, at } }),
});
