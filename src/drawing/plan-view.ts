import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import type { Box } from './box-grid.ts';
import type { Mark, TextMeasure } from './display.ts';
import type { Field } from './label-place.ts';
import { fitText } from './measure.ts';

/** Groups of a level's drawing, from the lowest to the highest. */
export const PLAN_GROUPS = [
  'background',
  'zones',
  'keepouts',
  'walls',
  'openings',
  'pathways',
  'ways',
  'crossings',
  'leaders',
  'counts',
  'rooms',
  'power',
  'outlets',
  'devices',
  'pins',
  'risers',
  'closets',
  'notes',
  'findings',
] as const;
export type PlanGroup = (typeof PLAN_GROUPS)[number];

/** The groups' names as a PDF reader lists them. */
export const GROUP_TITLES: Readonly<Record<PlanGroup, Message>> = {
  background: msg('Background'),
  zones: msg('Rooms and areas'),
  keepouts: msg('Keep-outs'),
  walls: msg('Walls'),
  openings: msg('Doors and windows'),
  pathways: msg('Pathways'),
  ways: msg('Cable'),
  crossings: msg('Holes in walls'),
  leaders: msg('Leader lines'),
  counts: msg('Cable counts'),
  rooms: msg('Room names'),
  power: msg('Power outlets'),
  outlets: msg('Jacks'),
  devices: msg('Devices'),
  pins: msg('Pins'),
  risers: msg('Risers'),
  closets: msg('Closets'),
  notes: msg('Notes and dimensions'),
  findings: msg('Findings'),
};

export interface PlanView {
  readonly level: Id;
  /** Paper mm for one mm of the building: 1/96 at 1/8" = 1'-0". On a screen: what a pixel is, over paper mm per pixel. */
  readonly scale: number;
  readonly kinds: KindRegistry;
  readonly measure: TextMeasure;
  /** What is drawn; all where it is left out. */
  readonly groups?: ReadonlySet<PlanGroup>;
  /** Whether pictures are painted beneath, though perhaps not as part of this drawing; by itself as the groups say. */
  readonly overPictures?: boolean;
  /** Whether jacks say their height and mount under the label. */
  readonly heights?: boolean;
  /** Whether crowded symbols move aside on a leader line; without it they stay where they are and may touch. */
  readonly spread?: boolean;
  /** Whether a symbol without free room is drawn at its own place all the same, as on a screen, which shows everything. */
  readonly keep?: boolean;
  /** Whether pathways say their name and size, which a small drawing has no room for; they do where it is left out. */
  readonly notes?: boolean;
  /**
   * How often the drawing is made anew with what had no room put first; 1 where it is left out. Paper takes the time,
   * a screen zooms in.
   */
  readonly attempts?: number;
  /** What labels must stay within, mm of the building. */
  readonly bounds?: Box;
}

export interface PlanLayer {
  readonly group: PlanGroup;
  readonly marks: readonly Mark[];
}

/** A symbol or a label for which there was no room, in its own words. */
export interface LeftOut {
  readonly group: PlanGroup;
  readonly what: string;
}

export interface PlanDrawing {
  /** In drawing order, in mm of the building; empty groups are left out. */
  readonly layers: readonly PlanLayer[];
  /** Symbols and labels for which there was no free room at this scale; they are not drawn. */
  readonly leftOut: readonly LeftOut[];
}

/** What the parts of the drawing share while it is made. */
export interface Drafting {
  readonly plan: Plan;
  readonly survey: Survey | null;
  readonly view: PlanView;
  readonly units: 'ft' | 'm';
  readonly field: Field;
  readonly wants: (group: PlanGroup) => boolean;
  readonly put: (group: PlanGroup, ...marks: readonly Mark[]) => void;
  readonly leaveOut: (group: PlanGroup, what: string) => void;
  /** Whether something had no room when its turn came last time, so that its turn comes first now. */
  readonly urgent: (group: PlanGroup, what: string) => boolean;
}

/** A name that is written in one line covers no more of the drawing than this, paper mm. */
const LONGEST_NAME = 80;

/** A name as it is written in one line: cut with an ellipsis where it would run across the drawing. */
export const inOneLine = ({ measure }: PlanView, name: string, size: number, bold = false) =>
  fitText(measure, name, LONGEST_NAME, size, 'sans', bold);

/** From the building to paper and back; both have their origin in the same place. */
export const toPaper = (view: PlanView, [x, y]: Point): Point => [x * view.scale, y * view.scale];
/** From paper back to the building, mm. */
export const toBuilding = (view: PlanView, [x, y]: Point): Point => [
  x / view.scale,
  y / view.scale,
];
