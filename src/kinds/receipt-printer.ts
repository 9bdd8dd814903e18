import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { cut } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const receiptPrinter: DeviceKind = {
  id: 'receipt-printer',
  code: 'RP',
  label: msg('Receipt printer'),
  hint: msg("shares a station's jack, or has its own"),
  mount: 'wall',
  height: 1170,
  outletHeight: 1170,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: ['order-station', 'kiosk'],
  power: 'receptacle',
  network: 'payment',
  footprint: { width: 200, depth: 250 },
  usualIn: ['counter', 'drive-through'],
  key: 'r',
  symbol: cut(),
};
