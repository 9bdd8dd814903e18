import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { disc } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const accessPoint: DeviceKind = {
  id: 'access-point',
  code: 'AP',
  label: msg('Access point'),
  hint: msg('Wi-Fi, on the ceiling'),
  mount: 'ceiling',
  height: 2743,
  outletHeight: 2743,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'data cable',
  network: 'staff',
  footprint: { width: 250, depth: 250 },
  usualIn: ['dining'],
  key: 'a',
  symbol: disc(),
};
