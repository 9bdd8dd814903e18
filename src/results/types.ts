import type { Id } from '../base/ids.ts';
import type { Message } from '../base/message.ts';
import type { Point } from '../geometry/point.ts';
import type { Ref, Wall, Zone } from '../plan/plan.ts';
import type { Unfit } from '../plan/unfit-rooms.ts';

/**
 * What the survey says of a plan: plain data that can be sent to a worker, printed or saved as JSON, and never is
 * part of the plan. All lengths are whole mm; every sum is the sum of its parts to the millimetre.
 */

/** A place in the building: x, y and the height above the ground level's floor. */
export type Place = readonly [x: number, y: number, z: number];

/** How a stretch of cable lies. */
export type SegmentKind = 'up' | 'across' | 'step' | 'down' | 'riser';

/** One straight stretch of a run, from the jack towards the closet. */
export interface Segment {
  readonly kind: SegmentKind;
  /** The level on whose plan it is drawn; a riser's is the one that it comes from. */
  readonly level: Id;
  readonly from: Place;
  readonly to: Place;
  readonly length: number;
  /** The ceiling zone over it; null where the level's own ceiling holds. */
  readonly zone: Id | null;
  readonly ceiling: Zone['ceiling']['kind'] | null;
  readonly pathway: Id | null;
  /** The riser, where it goes up or down one. */
  readonly riser: Id | null;
  /** What its length counts for in the search, whole percent. */
  readonly factor: number;
}

/** What a hole in a wall takes. */
export type CrossingWork = 'none' | 'sleeve' | 'core' | 'seal';

export interface Crossing {
  readonly level: Id;
  readonly wall: Id;
  readonly construction: Wall['construction'];
  readonly at: Place;
  readonly work: CrossingWork;
  /** Whether the wall is fire-rated, so that the hole is firestopped with a listed system. */
  readonly firestop: boolean;
  /** Price in the search, equivalent mm. */
  readonly price: number;
  /** The pathway that passes the wall here, if a drawn one does. */
  readonly pathway: Id | null;
}

/** Parts of a cable's length in the order in which they are read out. */
export type PartKind = SegmentKind | 'outlet-slack' | 'field-loop' | 'closet-loop';

/** One summand of a cable's length, neighbours of the same kind and way put together. */
export interface RunPart {
  readonly kind: PartKind;
  readonly length: number;
  readonly zone: Id | null;
  readonly pathway: Id | null;
}

export type RunStatus = 'ok' | 'near' | 'over' | 'unroutable';

/** A home run: one jack, one unbroken cable, one closet. An unroutable one has lengths of 0 and says why. */
export interface Run {
  readonly jack: Id;
  readonly label: string;
  readonly outlet: Id;
  readonly device: Id | null;
  readonly closet: Id | null;
  readonly level: Id;
  readonly status: RunStatus;
  /** Real horizontal length, and real vertical length (up, steps, down). */
  readonly across: number;
  readonly vertical: number;
  /** Outlet slack, field loop and closet loop together. */
  readonly slack: number;
  /** across + vertical: what a tape would read. */
  readonly path: number;
  /** path + slack: the cable that stays in the building, the permanent link. */
  readonly cable: number;
  /** cable with waste, rounded up to the ordering step. */
  readonly order: number;
  /** cable + device cord + closet cord. */
  readonly channel: number;
  /** The most that `cable` may be: the permanent-link limit, or the channel limit less the cords if that is less. */
  readonly limit: number;
  /** What the search minimised, equivalent mm. */
  readonly cost: number;
  readonly parts: readonly RunPart[];
  readonly segments: readonly Segment[];
  readonly points: readonly Place[];
  readonly crossings: readonly Crossing[];
  readonly pathways: readonly Id[];
  readonly bends: number;
  /** What the pin that it passes costs against the free way; null where it passes none. */
  readonly pinned: Pinned | null;
  readonly blocked: Blocked | null;
}

/** A run that is made to pass a pin, against the way that it would take by itself. */
export interface Pinned {
  readonly pin: Id;
  /** What it costs more in the search, equivalent mm: never below 0. */
  readonly cost: number;
  /** How much longer its path is, mm; below 0 where the free way is cheaper but longer. */
  readonly path: number;
}

/** Why a jack has no way home. */
export interface Blocked {
  /**
   * `no-closet`; `other-level` when closets stand on other levels only and no riser leads there; `no-under-slab` for a
   * floor outlet without an under-slab pathway at hand; `pin` when the way is free but the pin cannot be passed;
   * `no-way` where something bars it.
   */
  readonly reason: 'no-closet' | 'other-level' | 'no-under-slab' | 'pin' | 'no-way';
  /** What bars it, when that is known. */
  readonly by: Ref | null;
  /** The place nearest to the closet that a cable from the jack can get to. */
  readonly reached: Place | null;
}

/** What one more closet would do, at the best of the places that were looked at. */
export interface ClosetStudy {
  /** How many places were looked at. */
  readonly places: number;
  /** Null where no place would save any cable or bring any run under its limit. */
  readonly best: ClosetGain | null;
  /** A place that would be better still, but in a room that is no place for a closet; null where there is none. */
  readonly passed: PassedOver | null;
}

/** The best place that was passed over, and what speaks against it. */
export interface PassedOver {
  readonly gain: ClosetGain;
  readonly unfit: Unfit;
}

/** One more closet at a place: only runs that are free to choose their closet and their way go there. */
export interface ClosetGain {
  readonly level: Id;
  readonly at: Point;
  /** The room that it would stand in; null where none is drawn. */
  readonly zone: Id | null;
  /** Height of its termination, as in the first closet. */
  readonly height: number;
  /** Cable that the runs would save, mm. */
  readonly saves: number;
  /** Jacks whose cable would be shorter. */
  readonly nearer: readonly Id[];
  /** Jacks whose runs are over their limit now and would not be. */
  readonly relieved: readonly Id[];
  /** Length of the path from it to the nearest closet that is there, for the cable between the two; null without a way. */
  readonly link: number | null;
}

/** A stretch that cables share, with their number: what the crew reads off the plan at any point. */
export interface Way {
  readonly level: Id;
  readonly from: Place;
  readonly to: Place;
  readonly pathway: Id | null;
  /** Jacks whose cables lie here, in the order of their labels. */
  readonly jacks: readonly Id[];
}

export type Severity = 'error' | 'warning' | 'note';

/** Something to mend or to know, in words with the reason and the remedy. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly subjects: readonly Ref[];
  readonly at: { readonly level: Id; readonly point: Point } | null;
  readonly message: Message;
  readonly remedy: Message;
  /** Where the rule comes from: a standard with its clause, or `common practice, no source`. */
  readonly source: string;
  /** A command that mends it, with its arguments, where there is one. */
  readonly fix: {
    readonly command: string;
    readonly args: unknown;
    readonly label: Message;
  } | null;
}

/** A line of the material list or of the labour. */
export interface PriceLine {
  readonly part: string;
  readonly label: Message;
  readonly group: 'cable' | 'outlets' | 'closet' | 'pathways' | 'penetrations' | 'cords' | 'labour';
  readonly quantity: number;
  /** `each`, `box`, `h`. */
  readonly unit: string;
  readonly unitCents: number;
  readonly totalCents: number;
}

export interface Price {
  readonly currency: string;
  readonly lines: readonly PriceLine[];
  readonly materialCents: number;
  readonly labourCents: number;
  readonly markupCents: number;
  readonly taxCents: number;
  readonly totalCents: number;
  readonly hours: number;
}

/** A box of cable with the runs that are cut from it; nothing is ever spliced. */
export interface BoxUse {
  readonly number: number;
  readonly jacks: readonly Id[];
  readonly used: number;
  readonly left: number;
}

export interface BoxPlan {
  readonly boxes: readonly BoxUse[];
  /** No plan can use fewer boxes than this. */
  readonly bound: number;
  /** Runs longer than a whole box. */
  readonly oversize: readonly Id[];
  /** Total order length over the box length, rounded up: what a spreadsheet says. */
  readonly byLength: number;
  /** Boxes if each held the whole runs of average length that fit. */
  readonly byAverage: number;
}

/** The averaging method of the trade, beside the exact sum. */
export interface Averaging {
  readonly shortest: number;
  readonly longest: number;
  readonly average: number;
  readonly total: number;
}

export interface Totals {
  readonly cable: number;
  readonly order: number;
  readonly jacks: number;
  readonly devices: number;
  readonly boxes: number;
  readonly priceCents: number;
}

export interface Survey {
  readonly runs: readonly Run[];
  readonly ways: readonly Way[];
  readonly findings: readonly Finding[];
  readonly price: Price;
  readonly boxPlan: BoxPlan;
  readonly averaging: Averaging | null;
  readonly totals: Totals;
}
