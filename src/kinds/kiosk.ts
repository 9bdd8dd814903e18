import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { round } from './outlines.ts';

/**
 * Outlet: upper end of the usual 15 to 18 in. (from memory). Height, cord, size, power and network: common practice, no
 * source.
 */
export const kiosk: DeviceKind = {
  id: 'kiosk',
  code: 'KI',
  label: msg('Kiosk'),
  hint: msg('guests order by themselves'),
  mount: 'wall',
  height: 1120,
  outletHeight: 457,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'payment',
  footprint: { width: 500, depth: 400 },
  usualIn: ['counter'],
  key: 'i',
  symbol: round(),
};
