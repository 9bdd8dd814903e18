import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { round } from './outlines.ts';

/**
 * Outlet: upper end of the usual 15 to 18 in. (from memory). Height, cord, size, power and network: common practice, no
 * source.
 */
export const phone: DeviceKind = {
  id: 'phone',
  code: 'PH',
  label: msg('Phone'),
  hint: msg('desk or wall phone'),
  mount: 'wall',
  height: 1170,
  outletHeight: 457,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'data cable',
  network: 'staff',
  footprint: { width: 200, depth: 200 },
  usualIn: ['entrance', 'office'],
  key: '',
  symbol: round(),
};
