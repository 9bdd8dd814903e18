import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { wide } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const menuScreen: DeviceKind = {
  id: 'menu-screen',
  code: 'MS',
  label: msg('Menu screen'),
  hint: msg('large screen on a wall'),
  mount: 'wall',
  height: 2130,
  outletHeight: 2130,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'staff',
  footprint: { width: 1100, depth: 120 },
  usualIn: ['counter'],
  key: '',
  symbol: wide(),
};
