import { FOOT, INCH, METRE, type Units } from '../base/units.ts';

/** A mark on a ruler's edge: its place along the edge, px, and its figure where it has one. */
export interface Tick {
  readonly at: number;
  readonly label: string | null;
}

interface Division {
  /** Distance of the figures, and of the marks between them, mm. */
  readonly major: number;
  readonly minor: number;
}

const FEET: readonly Division[] = [
  { major: 6 * INCH, minor: INCH },
  { major: FOOT, minor: 3 * INCH },
  { major: 2 * FOOT, minor: 6 * INCH },
  { major: 5 * FOOT, minor: FOOT },
  { major: 10 * FOOT, minor: FOOT },
  { major: 20 * FOOT, minor: 5 * FOOT },
  { major: 50 * FOOT, minor: 10 * FOOT },
  { major: 100 * FOOT, minor: 20 * FOOT },
  { major: 500 * FOOT, minor: 100 * FOOT },
  { major: 1000 * FOOT, minor: 200 * FOOT },
];
const METRES: readonly Division[] = [
  { major: 0.1 * METRE, minor: 0.02 * METRE },
  { major: 0.5 * METRE, minor: 0.1 * METRE },
  { major: METRE, minor: 0.2 * METRE },
  { major: 2 * METRE, minor: 0.5 * METRE },
  { major: 5 * METRE, minor: METRE },
  { major: 10 * METRE, minor: METRE },
  { major: 20 * METRE, minor: 5 * METRE },
  { major: 50 * METRE, minor: 10 * METRE },
  { major: 100 * METRE, minor: 20 * METRE },
  { major: 500 * METRE, minor: 100 * METRE },
];

/** Figures stand at least this far apart, px. */
const LEAST = 56;

/** The division of a ruler at a zoom. @param scale screen pixels for one mm */
export function division(units: Units, scale: number): Division {
  const all = units === 'ft' ? FEET : METRES;
  return all.find(({ major }) => major * scale >= LEAST) ?? all.at(-1)!;
}

function figure(mm: number, major: number, units: Units): string {
  if (units === 'm') return String(Number((mm / METRE).toFixed(1)));
  const inches = Math.round(mm / INCH);
  if (major >= FOOT) return `${inches / 12}'`;
  const feet = Math.trunc(inches / 12);
  const rest = Math.abs(inches % 12);
  if (rest === 0) return `${feet}'`;
  return feet === 0 ? `${inches}"` : `${feet}'${rest}"`;
}

/**
 * The marks along an edge of the board.
 *
 * @param start the plan's coordinate at the edge's beginning, mm
 * @param length the edge's length, px
 */
export function ticks(units: Units, scale: number, start: number, length: number): Tick[] {
  const { major, minor } = division(units, scale);
  const every = Math.round(major / minor);
  const out: Tick[] = [];
  const last = Math.floor((start + length / scale) / minor);
  for (let i = Math.ceil(start / minor); i <= last; i++) {
    const mm = i * minor;
    const label = i % every === 0 ? figure(mm, major, units) : null;
    out.push({ at: (mm - start) * scale, label });
  }
  return out;
}
