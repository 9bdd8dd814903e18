import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import type { Pathway, Wall, Zone } from '../plan/plan.ts';
import type { CrossingWork } from './types.ts';

/**
 * What a cable may do overhead on one level, and at what price: the rules of the search as areas that can be drawn.
 * Places are in the building, mm; elevations above the floor of the level; factors in percent of the length; prices in
 * equivalent mm.
 */
export interface CeilingPlane {
  readonly level: Id;
  /** The level's own ceiling first, then the rooms; where they overlap the later one holds. */
  readonly ceilings: readonly PlaneCeiling[];
  readonly walls: readonly PlaneWall[];
  readonly keepouts: readonly PlaneKeepout[];
  readonly pathways: readonly PlanePathway[];
  /** Pieces of walls' faces along which a cable may go under a hard ceiling. */
  readonly faces: readonly (readonly [Point, Point])[];
  /** Of each turn in the plane. */
  readonly bend: number;
}

/** What lies overhead somewhere. */
export interface PlaneCeiling {
  /** The room; null for the level's own ceiling, which holds where no room is drawn and has no outline. */
  readonly zone: Id | null;
  readonly outline: readonly Point[];
  readonly kind: Zone['ceiling']['kind'];
  /** `free`: anywhere along the building lines. `faces`: along and inside walls only. */
  readonly travel: 'free' | 'faces';
  /** Of the cable. */
  readonly elevation: number;
  readonly factor: number;
}

/** Why a wall is passed as it is: it stops below the cable, what it is built of, or that it is an outer wall. */
export type PlaneWallReason = 'grid' | 'exterior' | Wall['construction'];

/** A wall, or several in line that take the same work and run into one another. */
export interface PlaneWall {
  readonly walls: readonly Id[];
  readonly outline: readonly Point[];
  /** `barred`: only a drawn pathway passes. */
  readonly passage: 'free' | 'priced' | 'barred';
  readonly reason: PlaneWallReason;
  readonly work: CrossingWork;
  readonly firestop: boolean;
  /** Of one crossing. */
  readonly price: number;
}

/** A place that free travel may not enter, and what is kept clear round it. */
export interface PlaneKeepout {
  readonly keepout: Id;
  readonly outline: readonly Point[];
  readonly clearance: number;
  /** Outlines that together cover the keep-out with its clearance. */
  readonly kept: readonly (readonly Point[])[];
}

/** A drawn pathway; it passes walls and keep-outs without a price. */
export interface PlanePathway {
  readonly pathway: Id;
  readonly kind: Pathway['kind'];
  readonly points: readonly Point[];
  /** Null where it follows the ceiling. */
  readonly elevation: number | null;
  readonly factor: number;
  /** Where cables join and leave it. */
  readonly joins: 'anywhere' | 'ends';
}
