import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { round } from './outlines.ts';

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
  key: 'i',
  symbol: round(),
};
