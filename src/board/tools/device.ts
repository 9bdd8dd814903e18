import { msg } from '../../base/message.ts';
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
  call: (at, { level, option }) =>
    option === '' ? null : { name: 'place-device', args: { level, kind: option, at } },
});
