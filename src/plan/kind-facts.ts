import type { Message } from '../base/message.ts';
import type { Outlet } from './plan.ts';

/** What placing and checking a device needs to know of its kind; the registry is passed in, the plan never names one. */
export interface KindFacts {
  readonly id: string;
  readonly label: Message;
  /** Where its outlet goes when nobody says otherwise. */
  readonly mount: Outlet['mount'];
  /** Height of its own port above the floor, and of the outlet that serves it. */
  readonly height: number;
  readonly outletHeight: number;
  /** Jacks that it gets when it is placed; 0 for a device without a cable. */
  readonly jacks: number;
  /** Cord from jack to device. */
  readonly cord: number;
  /** Kinds whose jack it may share. */
  readonly sharesWith: readonly string[];
}
