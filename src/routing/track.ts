import type { Point } from '../geometry/point.ts';
import type { Profile } from './profile.ts';

/**
 * A straight stretch that is not a line of the plane: one piece of a pathway, or the long face of a wall off the frame.
 *
 * Positions along it are x for axis 0, y for axis 1, and mm from its start for axis 2.
 */
export interface Track {
  /** Index of the pathway, or -1 for a face. */
  readonly line: number;
  readonly segment: number;
  readonly axis: 0 | 1 | 2;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Position of the start and of the end. */
  readonly pa: number;
  readonly pb: number;
  readonly anywhere: boolean;
  /** Whether its start or end can be joined although the rest cannot. */
  readonly openA: boolean;
  readonly openB: boolean;
  /** Whether it runs under the slab, and comes to a floor box at its start or end. */
  readonly slab: boolean;
  readonly boxA: boolean;
  readonly boxB: boolean;
  /** Stretches of the plane that it runs in. */
  readonly profile: Profile;
  /** A second view from the other side, where the track runs on a border. */
  readonly other: Profile;
  readonly elevation: number | null;
  /** Places that lines should run through. */
  readonly doors: Point[];
}
