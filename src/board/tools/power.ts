import { msg } from '../../base/message.ts';
import { spotTool } from '../gestures/spot.ts';

export const power = spotTool({
  id: 'power',
  label: msg('Power outlet'),
  key: 'e',
  snaps: ['grid', 'aligned'],
  hint: msg('Click where a power outlet is or is asked for.'),
  once: false,
  call: (at, { level }) => ({ name: 'place-power', args: { level, at } }),
});
