import type { Message } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import type { KindFacts } from '../plan/kind-facts.ts';

/** What a room is for, as far as its name says. */
export type RoomUse =
  | 'bar'
  | 'counter'
  | 'kitchen'
  | 'drive-through'
  | 'entrance'
  | 'office'
  | 'staff'
  | 'storage'
  | 'dining';

/**
 * A kind of device answers questions about itself; nothing else in the program knows its name.
 * To add one: a file in this folder and a line in `index.ts`.
 */
export interface DeviceKind extends KindFacts {
  /** Two letters in the symbol and the legend. */
  readonly code: string;
  /** One short line for the shelf. */
  readonly hint: Message;
  /** What feeds it: a receptacle nearby, or the data cable. */
  readonly power: 'receptacle' | 'data cable';
  /** The network that it belongs on; shown in the port map. */
  readonly network: 'payment' | 'staff' | 'guest';
  /** Size on the floor, mm, for the outline on the plan. */
  readonly footprint: { readonly width: number; readonly depth: number };
  /** Rooms that usually have one: common practice, no source. It is said in words; nothing is placed by it. */
  readonly usualIn: readonly RoomUse[];
  /** The key that picks it on the board; empty for none. */
  readonly key: string;
  /** The outline in paper mm round the origin, without the code's letters. */
  readonly symbol: readonly Mark[];
}

export type KindRegistry = ReadonlyMap<string, DeviceKind>;

/** The usual cord from jack to device: 7 ft; 3 ft is the other length that the trade supplies (common practice, no source). */
export const DEVICE_CORD = 2134;
export const SHORT_CORD = 914;
