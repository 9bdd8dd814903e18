import { INCH } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import type { Pathway, Plan } from '../plan/plan.ts';
import type { Run } from '../results/types.ts';

/** A closed way that cables are pulled through from end to end, and the runs that go through it. */
export interface Duct {
  readonly pathway: Pathway;
  readonly runs: readonly Run[];
}

const CLOSED: readonly Pathway['kind'][] = ['conduit', 'sleeve', 'under-slab'];

/** Conduit, sleeves and conduit under the slab that carry cables. Where two meet end to end there is a pull point. */
export const ducts = (plan: Plan, runs: readonly Run[]): Duct[] =>
  [...plan.tables.pathways.values()]
    .filter(({ kind }) => CLOSED.includes(kind))
    .map((pathway) => ({
      pathway,
      runs: runs.filter((run) => run.pathways.includes(pathway.id)),
    }))
    .filter((duct) => duct.runs.length > 0);

export interface Bend {
  readonly at: Point;
  /** By how much it turns, either way. */
  readonly degrees: number;
}

/** The bends of a chain as it is drawn; points that repeat the one before are passed over. */
export function bendsOf(points: readonly Point[]): Bend[] {
  const path = points.filter((p, i) => i === 0 || !same(p, points[i - 1]!));
  return path
    .slice(1, -1)
    .map((at, i) => ({ at, degrees: turn(path[i]!, at, path[i + 2]!) }))
    .filter(({ degrees }) => degrees > 0);
}

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

function turn(a: Point, b: Point, c: Point): number {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [c[0] - b[0], c[1] - b[1]];
  return (Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) * 180) / Math.PI;
}

/** What bends come to together, in degrees; 0 for none. */
export const degreesOf = (bends: readonly Bend[]): number =>
  bends.reduce((sum, { degrees }) => sum + degrees, 0);

/** A trade size of conduit. */
export interface TradeSize {
  /** In inches, as it is said, and its metric designator. */
  readonly name: string;
  readonly inches: number;
  readonly designator: number;
  /** Inside diameter, mm. */
  readonly inside: number;
}

const size = (name: string, inches: number, designator: number, inside: number): TradeSize => ({
  name,
  inches,
  designator,
  inside: inside * INCH,
});

/** Electrical metallic tubing: trade sizes with their inside diameters (NEC chapter 9, table 4, article 358). */
export const TRADE_SIZES: readonly TradeSize[] = [
  size('1/2 in.', 0.5, 16, 0.622),
  size('3/4 in.', 0.75, 21, 0.824),
  size('1 in.', 1, 27, 1.049),
  size('1-1/4 in.', 1.25, 35, 1.38),
  size('1-1/2 in.', 1.5, 41, 1.61),
  size('2 in.', 2, 53, 2.067),
  size('2-1/2 in.', 2.5, 63, 2.731),
  size('3 in.', 3, 78, 3.356),
  size('3-1/2 in.', 3.5, 91, 3.834),
  size('4 in.', 4, 103, 4.334),
];

const UNIT = String.raw`\s*(?:"|''|\u2033|\u201d|-?in(?:ch(?:es)?|\.)?)`;
const FRACTION = /^(?:(\d+)(?:\s*-\s*|\s+))?(\d+)\/(\d+)(?!\d|\s*[x\u00d7])/;
const INCHES = new RegExp(String.raw`^(\d+(?:\.\d+)?)${UNIT}(?![\w\u00d7])(?!\s*[x\u00d7])`);
const DESIGNATOR = /^(\d+)\s*mm\b(?!\s*[x\u00d7])/;

/**
 * The trade size that somebody wrote: `1"`, `1-1/4 in.`, `3/4`, `27 mm`; null where it is none, as `2 x 4 in.` or a
 * bare number. Millimetres are taken as metric designators alone, since other sizes in mm do not say their inside.
 */
export function tradeSize(text: string): TradeSize | null {
  const words = text.trim().toLowerCase();
  const designator = DESIGNATOR.exec(words);
  if (designator) return TRADE_SIZES.find((s) => s.designator === Number(designator[1])) ?? null;
  const inches = inchesIn(words);
  return TRADE_SIZES.find((s) => inches !== null && Math.abs(s.inches - inches) < 0.001) ?? null;
}

function inchesIn(words: string): number | null {
  const fraction = FRACTION.exec(words);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  const plain = INCHES.exec(words);
  return plain ? Number(plain[1]) : null;
}
