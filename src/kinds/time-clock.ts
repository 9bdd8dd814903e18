import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { box } from './outlines.ts';

/**
 * Height: the most that a forward reach may be (2010 ADA Standards, 308.2: 48 in.). Cord, size, power and network: common
 * practice, no source.
 */
export const timeClock: DeviceKind = {
  id: 'time-clock',
  code: 'TC',
  label: msg('Time clock'),
  hint: msg('staff clock in and out'),
  mount: 'wall',
  height: 1220,
  outletHeight: 1220,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'data cable',
  network: 'staff',
  footprint: { width: 200, depth: 100 },
  usualIn: ['office', 'staff'],
  key: '',
  symbol: box(),
};
