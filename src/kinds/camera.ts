import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { disc } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const camera: DeviceKind = {
  id: 'camera',
  code: 'CM',
  label: msg('Camera'),
  hint: msg('on the ceiling or high on a wall'),
  mount: 'ceiling',
  height: 2743,
  outletHeight: 2743,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'data cable',
  network: 'staff',
  footprint: { width: 150, depth: 150 },
  usualIn: ['bar', 'counter', 'entrance', 'storage', 'dining'],
  key: '',
  symbol: disc(),
};
