import { msg } from '../../base/message.ts';
import { spotTool } from '../gestures/spot.ts';

/** Places a riser to the level that was chosen on the shelf, else to the one above, else to the one below. */
export const riser = spotTool({
  id: 'riser',
  label: msg('Riser'),
  key: 'u',
  snaps: ['grid', 'aligned'],
  hint: msg('Click where cables go up or down to another level. It stands there on both.'),
  once: true,
  call: (at, { level, option }) => ({
    name: 'place-riser',
    args: { level, at, ...(option === '' ? {} : { to: option }) },
  }),
});
