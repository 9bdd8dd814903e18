import { msg } from '../base/message.ts';
import { DEVICE_CORD, type DeviceKind } from './kind.ts';
import { cut } from './outlines.ts';

/** Heights, cord, size, power and network: common practice, no source. */
export const ticketPrinter: DeviceKind = {
  id: 'ticket-printer',
  code: 'TP',
  label: msg('Ticket printer'),
  hint: msg('prints kitchen and bar tickets'),
  mount: 'wall',
  height: 1370,
  outletHeight: 1370,
  jacks: 1,
  cord: DEVICE_CORD,
  sharesWith: [],
  power: 'receptacle',
  network: 'staff',
  footprint: { width: 200, depth: 250 },
  usualIn: ['bar', 'kitchen'],
  key: 't',
  symbol: cut(),
};
