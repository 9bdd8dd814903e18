import type { Id } from '../../base/ids.ts';
import { compareLabels } from '../../base/labels.ts';
import { FOOT, METRE, type Units } from '../../base/units.ts';
import type { Run, RunStatus } from '../../results/types.ts';

export type LadderOrder = 'length' | 'label';

/** A bar of the ladder; lengths in mm. */
export interface LadderRow {
  readonly jack: Id;
  readonly label: string;
  readonly status: RunStatus;
  readonly vertical: number;
  readonly along: number;
  readonly slack: number;
  readonly cable: number;
  readonly limit: number;
}

/** One bar a run, longest first or in the order of the labels; equal ones by label, then by jack. */
export function ladderRows(runs: readonly Run[], order: LadderOrder): LadderRow[] {
  const byLabel = (a: Run, b: Run) =>
    compareLabels(a.label, b.label) || compareLabels(a.jack, b.jack);
  const sorted = [...runs].sort((a, b) =>
    order === 'length' ? b.cable - a.cable || byLabel(a, b) : byLabel(a, b),
  );
  return sorted.map(rowOf);
}

/** The bar of a run. */
const rowOf = (run: Run): LadderRow => ({
  jack: run.jack,
  label: run.label,
  status: run.status,
  vertical: run.vertical,
  along: run.across,
  slack: run.slack,
  cable: run.cable,
  limit: run.limit,
});

/** Newly made rows by those of before where they say the same, and the same list where all do: it need not be drawn. */
export function keepRows(before: readonly LadderRow[], rows: LadderRow[]): readonly LadderRow[] {
  const old = new Map(before.map((row) => [row.jack, row]));
  const kept = rows.map((row) => {
    const was = old.get(row.jack);
    return was && sameRow(was, row) ? was : row;
  });
  return kept.length === before.length && kept.every((row, i) => row === before[i]) ? before : kept;
}

const sameRow = (a: LadderRow, b: LadderRow): boolean =>
  (Object.keys(a) as (keyof LadderRow)[]).every((field) => a[field] === b[field]);

export interface LadderScale {
  /** Length at the top of the ladder, mm. */
  readonly top: number;
  /** Lengths with a line and a figure, mm. */
  readonly marks: readonly number[];
  /** The lowest limit, mm; null without runs. */
  readonly limit: number | null;
  /** Whether the lowest limit lies within the scale; if not, it is far above and is said in words. */
  readonly limitInside: boolean;
}

/** A limit this much above the longest bar is still drawn; beyond, the bars would be crushed. */
const ROOM_FOR_LIMIT = 1.8;

/** The scale of the ladder: all bars, and the limit where it is not far above them. */
export function ladderScale(rows: readonly LadderRow[], units: Units): LadderScale {
  const longest = rows.reduce((top, row) => Math.max(top, row.cable), 0);
  const limit = rows.reduce((low, row) => Math.min(low, row.limit), Number.POSITIVE_INFINITY);
  const limitInside = limit <= longest * ROOM_FOR_LIMIT;
  const reach = (limitInside ? Math.max(longest, limit) : longest) * 1.06;
  const step = niceStep(reach / 4, units === 'ft' ? FOOT : METRE);
  const top = Math.max(reach, step);
  const marks: number[] = [];
  for (let mark = step; mark <= top; mark += step) marks.push(mark);
  return { top, marks, limit: Number.isFinite(limit) ? limit : null, limitInside };
}

/** The round length (1, 2, 5, 10 … units) next above a wish. */
function niceStep(wish: number, unit: number): number {
  let size = unit;
  for (let i = 0; size < wish; i++) size *= i % 3 === 1 ? 2.5 : 2;
  return size;
}

/**
 * Which bars carry their label, so that no two labels touch: first the one pointed at, then the picked ones, then as
 * many as fit, evenly.
 *
 * @param first indices in the order of their importance
 * @param room bars that a label takes
 */
export function labelledBars(count: number, first: readonly number[], room: number): Set<number> {
  const step = Math.max(1, Math.ceil(room));
  const free = (i: number) => {
    for (let j = i - step + 1; j < i + step; j += 1) if (labelled.has(j)) return false;
    return true;
  };
  const labelled = new Set<number>();
  for (const i of first) if (i >= 0 && i < count && free(i)) labelled.add(i);
  for (let i = 0; i < count; i += step) if (free(i)) labelled.add(i);
  return labelled;
}
