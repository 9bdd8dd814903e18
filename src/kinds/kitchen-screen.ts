import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { wide } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const kitchenScreen: DeviceKind = {
  id: 'kitchen-screen',
  code: 'KS',
  label: msg('Kitchen screen'),
  hint: msg('shows tickets above the line'),
  mount: 'wall',
  height: 1980,
  outletHeight: 1980,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'staff',
  footprint: { width: 500, depth: 200 },
  usualIn: ['kitchen', 'drive-through'],
  key: 'k',
  symbol: wide(),
};
