import { msg } from '../../base/message.ts';
import { chainTool } from '../gestures/chain.ts';
import { inArea, ROOM_OPTIONS } from './room.ts';

export const outline = chainTool({
  id: 'outline',
  label: msg('Room, any outline'),
  key: 'l',
  options: ROOM_OPTIONS,
  snaps: [
    'grid',
    'end',
    'middle',
    'centre',
    'edge',
    'right-angle',
    'perpendicular',
    'extension',
    'aligned',
    'under-end',
    'under-line',
  ],
  hint: msg('Click the first corner of the room.'),
  least: 3,
  closes: 'always',
  call: (corners, _closed, { level, option, area }) => ({
    name: 'draw-zone',
    args: { level, outline: corners, walls: option !== 'no-walls', ...inArea(area) },
  }),
});
