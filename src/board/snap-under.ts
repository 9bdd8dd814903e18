import Flatbush from 'flatbush';
import type { Point } from '../geometry/point.ts';
import type { Underlay } from '../results/underlay.ts';

/** The lines of the backgrounds of a level, to be asked for those near a place. */
export interface UnderLines {
  readonly sheets: readonly { readonly lines: Float64Array; readonly index: Flatbush }[];
}

/** Gathers the lines that were read; done once for each state of the underlay. */
export function underLines(under: Underlay | null, level: string): UnderLines {
  const sheets = under?.level === level ? under.sheets : [];
  return {
    sheets: sheets.flatMap(({ lines }) => {
      if (lines.length === 0) return [];
      const index = new Flatbush(lines.length / 4);
      for (let i = 0; i < lines.length; i += 4) {
        const [ax, ay, bx, by] = [lines[i]!, lines[i + 1]!, lines[i + 2]!, lines[i + 3]!];
        index.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
      }
      index.finish();
      return [{ lines, index }];
    }),
  };
}

/** The lines in reach of a place; those that are seen shorter than `least` are letters and specks, and do not count. */
export function underNear(
  { sheets }: UnderLines,
  [x, y]: Point,
  reach: number,
  least: number,
): (readonly [Point, Point])[] {
  return sheets.flatMap(({ lines, index }) =>
    index.search(x - reach, y - reach, x + reach, y + reach).flatMap((n) => {
      const a: Point = [lines[4 * n]!, lines[4 * n + 1]!];
      const b: Point = [lines[4 * n + 2]!, lines[4 * n + 3]!];
      return Math.hypot(b[0] - a[0], b[1] - a[1]) < least ? [] : [[a, b] as const];
    }),
  );
}
