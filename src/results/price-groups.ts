import { type Message, msg } from '../base/message.ts';
import type { PriceLine } from './types.ts';

/** What the groups of a price are called on the screen, in files and on paper, in the order in which they are listed. */
export const PRICE_GROUPS: Readonly<Record<PriceLine['group'], Message>> = {
  cable: msg('Cable'),
  outlets: msg('Outlets'),
  closet: msg('Closet'),
  pathways: msg('Pathways'),
  penetrations: msg('Holes and firestopping'),
  cords: msg('Cords'),
  labour: msg('Labour'),
};
