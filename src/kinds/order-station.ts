import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { box } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const orderStation: DeviceKind = {
  id: 'order-station',
  code: 'OS',
  label: msg('Order station'),
  hint: msg('takes orders, needs a jack of its own'),
  mount: 'wall',
  height: 1170,
  outletHeight: 1170,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'payment',
  footprint: { width: 400, depth: 400 },
  usualIn: ['bar', 'counter', 'drive-through', 'entrance'],
  key: 'o',
  symbol: box(),
};
