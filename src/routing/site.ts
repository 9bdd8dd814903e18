import type { Point } from '../geometry/point.ts';

/**
 * What the router reads and writes: plain data, with no knowledge of where it came from.
 *
 * Lengths are mm, x east, y south, z up from the floor of the level. Factors are whole percent.
 */

export type CeilingKind = 'tile' | 'open' | 'hard';

/** What lies overhead: its kind, the elevation of the cable there, and the finished height. */
export interface SiteCeiling {
  readonly kind: CeilingKind;
  /** Elevation of the cable. */
  readonly elevation: number;
  /** Finished ceiling height; a pathway below it meets walls that stop at the ceiling grid. */
  readonly height: number;
}

export interface SiteZone extends SiteCeiling {
  readonly id: string;
  readonly outline: readonly Point[];
}

export interface SiteWall {
  readonly id: string;
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
  readonly construction: 'framed' | 'masonry' | 'insulated';
  readonly top: 'grid' | 'deck';
  readonly rated: boolean;
  readonly exterior: boolean;
}

export interface SiteKeepout {
  readonly id: string;
  readonly outline: readonly Point[];
  /** Kept free round it, measured along the two axes of the frame. */
  readonly clearance: number;
}

export type PathwayKind = 'hook-line' | 'tray' | 'conduit' | 'raceway' | 'sleeve' | 'under-slab';

export interface SitePathway {
  readonly id: string;
  readonly kind: PathwayKind;
  readonly points: readonly Point[];
  /** Above the floor; null follows the ceiling, or the slab for an under-slab one. */
  readonly elevation: number | null;
  /**
   * Of an under-slab one, whether a floor box stands at its first point and at its last; none where left out. At a
   * floor box the cable is under the floor: it comes up into its outlet alone, or goes on by another under-slab pathway.
   */
  readonly floorBoxes?: readonly [boolean, boolean];
}

export interface SiteCloset {
  readonly id: string;
  readonly at: Point;
  readonly height: number;
}

/** Factors in whole percent; prices in equivalent mm. */
export interface SitePrices {
  readonly tileFactor: number;
  readonly openFactor: number;
  readonly hardFactor: number;
  readonly pathwayFactor: number;
  readonly framed: number;
  readonly masonry: number;
  readonly rated: number;
  readonly bend: number;
}

/** What a length across under a ceiling counts for, whole percent. */
export const ceilingFactor = (kind: CeilingKind, prices: SitePrices): number =>
  kind === 'tile' ? prices.tileFactor : kind === 'open' ? prices.openFactor : prices.hardFactor;

/** One level, as a cable sees it. */
export interface Site {
  readonly id: string;
  /** Of its floor in the building, mm. */
  readonly elevation: number;
  /** Turn of the building lines against x, degrees clockwise as drawn. */
  readonly frameAngle: number;
  /** What holds where no zone covers a point. */
  readonly ceiling: SiteCeiling;
  /** Where zones overlap, the later one holds. */
  readonly zones: readonly SiteZone[];
  readonly walls: readonly SiteWall[];
  readonly keepouts: readonly SiteKeepout[];
  readonly pathways: readonly SitePathway[];
  readonly closets: readonly SiteCloset[];
  readonly prices: SitePrices;
}

/** A way between the ceiling planes of two levels, straight up or down. */
export interface SiteRiser {
  readonly id: string;
  /** Ids of the two levels. */
  readonly levels: readonly [string, string];
  readonly at: Point;
}

export interface Building {
  readonly levels: readonly Site[];
  readonly risers: readonly SiteRiser[];
}

/** Places on a level that a route is made to pass, in order from the terminal. */
export interface SitePin {
  readonly level: string;
  readonly points: readonly Point[];
}

/** Where a cable starts: an outlet. Heights are above the floor of its level. */
export interface Terminal {
  readonly at: Point;
  readonly height: number;
  readonly mount: 'wall' | 'ceiling' | 'pole' | 'casework' | 'floor';
  /** The wall that it hangs on, if that is drawn. */
  readonly wall: string | null;
}

/** x, y, and z in the building. */
export type SitePlace = readonly [x: number, y: number, z: number];

/** One straight stretch, from the terminal towards the closet; lengths are whole mm. */
export interface RouteSegment {
  readonly kind: 'up' | 'across' | 'step' | 'down' | 'riser';
  /** A riser's is the level that it comes from. */
  readonly level: string;
  readonly from: SitePlace;
  readonly to: SitePlace;
  readonly length: number;
  readonly zone: string | null;
  readonly ceiling: CeilingKind | null;
  readonly pathway: string | null;
  readonly riser: string | null;
  /** What its length counts for in the cost, whole percent. */
  readonly factor: number;
}

/** The straight line of a level that a stretch lies on, so that stretches of several routes can be laid side by side. */
export interface Lie {
  /** Names level, line, pathway and elevation. */
  readonly line: string;
  /** Positions along that line, mm. */
  readonly span: readonly [from: number, to: number];
}

export type WallWork = 'none' | 'sleeve' | 'core' | 'seal';

export interface RouteCrossing {
  readonly level: string;
  readonly wall: string;
  readonly construction: SiteWall['construction'];
  readonly at: SitePlace;
  readonly work: WallWork;
  readonly firestop: boolean;
  /** Equivalent mm in the search; 0 on a drawn pathway. */
  readonly price: number;
  readonly pathway: string | null;
}

export interface Route {
  readonly ok: true;
  readonly closet: string;
  /** What was minimised, equivalent mm. */
  readonly cost: number;
  readonly bends: number;
  readonly across: number;
  readonly vertical: number;
  /** across + vertical, exactly. */
  readonly path: number;
  readonly segments: readonly RouteSegment[];
  /** Where each segment lies; null for those that rise or fall. */
  readonly lies: readonly (Lie | null)[];
  readonly points: readonly SitePlace[];
  readonly crossings: readonly RouteCrossing[];
  readonly pathways: readonly string[];
}

/** What bars a way: a table of the site and an id in it. */
export interface Bar {
  readonly table: 'keepouts' | 'walls' | 'zones';
  readonly id: string;
}

export interface NoRoute {
  readonly ok: false;
  /**
   * `no-way`: something bars it. `no-under-slab`: a floor outlet without an under-slab pathway at hand. `no-riser`: the
   * closet stands on a level to which no riser leads. `pin`: the way is free, but not by the pin.
   */
  readonly reason: 'no-way' | 'no-under-slab' | 'no-riser' | 'pin';
  readonly by: Bar | null;
  /** The place nearest to the closet that a cable can get to. */
  readonly reached: SitePlace | null;
}

/** Elevation of an under-slab pathway that has none of its own. */
export const UNDER_SLAB = -300;
/**
 * A terminal this near to a pathway (along the axes) may join it straight from its own height; the short way to it
 * counts as part of the pathway.
 */
export const JOIN_REACH = 100;
/** In a hard zone, an outlet without a drawn wall starts at a wall face at most this far off. */
export const FACE_REACH = 300;
/** Most crossings of lines that a graph may hold; beyond it lines are thinned out and `exact` is false. */
export const MAX_NODES = 800_000;
