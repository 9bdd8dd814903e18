import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { round } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const cardTerminal: DeviceKind = {
  id: 'card-terminal',
  code: 'CT',
  label: msg('Card terminal'),
  hint: msg('takes cards, wired'),
  mount: 'wall',
  height: 1170,
  outletHeight: 1170,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: ['order-station'],
  power: 'receptacle',
  network: 'payment',
  footprint: { width: 150, depth: 200 },
  usualIn: ['bar', 'counter'],
  key: '',
  symbol: round(),
};
