import { formatLength, METRE, type Units } from '../../base/units.ts';
import type { LadderRow, LadderScale } from './rows.ts';

/** Where the bars stand, in px of the drawing. */
export interface BarBox {
  readonly width: number;
  readonly height: number;
  /** Width of a bar with its gap. */
  readonly pitch: number;
}

/** Narrowest bar with its gap that a finger or a pointer still meets. */
const LEAST_PITCH = 8;
/** Widest, so that few runs do not become slabs. */
const MOST_PITCH = 26;

/** Bars fill the room they have, within what can be read and met; beyond it the ladder scrolls. */
export const pitchFor = (count: number, room: number): number =>
  Math.min(MOST_PITCH, Math.max(LEAST_PITCH, room / Math.max(1, count)));

export interface BarPaths {
  readonly slack: string;
  readonly vertical: string;
  readonly along: string;
  /** Ticks of each run's own limit, where it lies inside the scale. */
  readonly limits: string;
}

/** All bars as one path for each part, so that 500 runs are four elements. */
export function barPaths(rows: readonly LadderRow[], scale: LadderScale, box: BarBox): BarPaths {
  const px = (mm: number) => (mm / scale.top) * box.height;
  const wide = Math.max(1, box.pitch - (box.pitch > 12 ? 4 : 2));
  const paths = { slack: '', vertical: '', along: '', limits: '' };
  rows.forEach((row, i) => {
    const x = round(i * box.pitch + (box.pitch - wide) / 2);
    let foot = box.height;
    for (const part of ['slack', 'vertical', 'along'] as const) {
      const tall = px(row[part]);
      if (tall <= 0) continue;
      foot -= tall;
      paths[part] += `M${x} ${round(foot)}h${round(wide)}v${round(tall)}h${-round(wide)}z`;
    }
    if (row.limit <= scale.top)
      paths.limits += `M${round(i * box.pitch + 1)} ${round(box.height - px(row.limit))}h${round(box.pitch - 2)}`;
  });
  return paths;
}

const round = (n: number): number => Math.round(n * 10) / 10;

/** A mark of the scale in words. Marks are round, so metres need no idle zeros, and the words stay narrow. */
export const markWords = (mm: number, units: Units): string =>
  units === 'm' ? `${mm / METRE} m` : formatLength(mm, units);

/** The bar under a place; -1 beside all of them. */
export function barAt(x: number, pitch: number, count: number): number {
  const i = Math.floor(x / pitch);
  return i >= 0 && i < count ? i : -1;
}
