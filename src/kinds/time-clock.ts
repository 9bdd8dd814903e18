import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { box } from './outlines.ts';

export const timeClock: DeviceKind = {
  id: 'time-clock',
  code: 'TC',
  label: msg('Time clock'),
  hint: msg('staff clock in and out'),
  mount: 'wall',
  height: 1370,
  outletHeight: 1370,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'data cable',
  network: 'staff',
  footprint: { width: 200, depth: 100 },
  key: '',
  symbol: box(),
};
