import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { box } from './outlines.ts';

/**
 * Outlet: upper end of the usual 15 to 18 in. (from memory). Height, cord, size, power and network: common practice, no
 * source.
 */
export const officePlace: DeviceKind = {
  id: 'office-place',
  code: 'OF',
  label: msg('Office place'),
  hint: msg('a desk with a computer'),
  mount: 'wall',
  height: 760,
  outletHeight: 457,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'staff',
  footprint: { width: 1200, depth: 700 },
  usualIn: ['office'],
  key: 'f',
  symbol: box(),
};
