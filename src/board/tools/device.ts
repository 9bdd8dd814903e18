import { msg } from '../../base/message.ts';
import { besideWalls } from '../beside-walls.ts';
import { spotTool } from '../gestures/spot.ts';

export const device = spotTool({
  id: 'device',
  label: msg('Device'),
  key: '',
  snaps: ['grid', 'aligned'],
  hint: msg(
    'Click where the device stands. Its jack goes to the nearest wall in reach of its cord.',
  ),
  once: false,
  // A coarse grid must not put a station into a wall or behind it: its outlet would hang in the next room.
  settle: (at, raw, { plan, level }) => besideWalls(plan, level, at, raw),
  call: (at, { level, option }) =>
    option === '' ? null : { name: 'place-device', args: { level, kind: option, at } },
});
