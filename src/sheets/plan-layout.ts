import type { Mark } from '../drawing/display.ts';
import { job } from '../plan/plan.ts';
import { insideBorder, paperSize, type Rect, ruleLine } from './frame.ts';
import type { LegendItem } from './legend.ts';
import { type DrawingScale, largestScale } from './scale.ts';
import type { SheetContext } from './sheet.ts';
import { LEGEND_COLUMN, legendPanel, notesPanel, type Panel, squareRoom } from './side-panel.ts';
import { TITLE_COLUMN_HEIGHT, TITLE_HEIGHT } from './title-block.ts';

/** Where the parts of a plan sheet stand. */
export interface PlanLayout {
  readonly page: { readonly width: number; readonly height: number };
  /** The drawing's own room. */
  readonly window: Rect;
  readonly square: readonly [number, number];
  readonly title: { readonly area: Rect; readonly shape: 'strip' | 'column' };
  /** Legend, notes and the lines between the parts. */
  readonly marks: readonly Mark[];
  /** Null when the level is larger than the smallest standard scale allows. */
  readonly scale: DrawingScale | null;
}

export interface LayoutWishes {
  /** The part of the building that must show, mm. */
  readonly size: { readonly width: number; readonly height: number };
  readonly legend: readonly LegendItem[];
  /** Notes that belong to this sheet alone. */
  readonly remarks: readonly string[];
}

/** Room round the building for labels that stand outside its walls, paper mm. */
export const LABEL_ROOM = 5;
const GAP = 3;

type Draft = Omit<PlanLayout, 'scale' | 'page'>;

/** The room for the building in a window. */
const free = (window: Rect) => ({
  width: window.width - 2 * LABEL_ROOM,
  height: window.height - 2 * LABEL_ROOM,
});

/**
 * The arrangement that lets the plan be largest: landscape or portrait, the legend along the foot or beside the plan.
 * Among those of one scale the one with the most room round the plan.
 */
export function planLayout(context: SheetContext, wishes: LayoutWishes): PlanLayout {
  const { units } = job(context.plan);
  const all = [true, false].flatMap((landscape) => {
    const page = paperSize(context, landscape);
    const area = insideBorder(page);
    return ARRANGEMENTS.map((arrange) => arrange(context, area, wishes))
      .filter((draft) => draft !== null)
      .map((draft): PlanLayout & { spare: number } => {
        const room = free(draft.window);
        const scale = largestScale(units, wishes.size, room);
        const fit = Math.min(room.width / wishes.size.width, room.height / wishes.size.height);
        return { ...draft, page, scale, spare: fit };
      });
  });
  const larger = (a: PlanLayout, b: PlanLayout): number =>
    (a.scale?.ratio ?? Number.POSITIVE_INFINITY) - (b.scale?.ratio ?? Number.POSITIVE_INFINITY) ||
    0;
  return all.sort((a, b) => larger(a, b) || b.spare - a.spare)[0]!;
}

/** Square, legend and notes in a row along the foot, over the title block. Always fits: the row grows. */
function alongFoot(context: SheetContext, area: Rect, wishes: LayoutWishes): Draft | null {
  const square = squareRoom(context);
  const rest = area.width - square - GAP;
  const options = [0.36, 0.42, 0.5, 0.3].map((share) => {
    const notesWidth = rest * share - GAP;
    const legendWidth = rest - notesWidth - 2 * GAP;
    const notes = notesPanel(context, notesWidth, wishes.remarks);
    const legend = legendPanel(context, wishes.legend, legendWidth);
    return { notes, legend, legendWidth, height: Math.max(notes.height, legend.height) + 4 };
  });
  const best = options.sort((a, b) => a.height - b.height)[0]!;
  const row = Math.max(square, best.height);
  const bottom = area.y + area.height;
  const titleY = bottom - TITLE_HEIGHT;
  const rowY = titleY - row;
  if (rowY < area.y + 60) return null;
  const legendX = area.x + square + GAP;
  const notesX = legendX + best.legendWidth + GAP;
  return {
    window: { x: area.x, y: area.y, width: area.width, height: rowY - area.y },
    square: [area.x + 2, rowY + 2],
    title: {
      area: { x: area.x, y: titleY, width: area.width, height: TITLE_HEIGHT },
      shape: 'strip',
    },
    marks: [
      ruleLine([area.x, rowY], [area.x + area.width, rowY], 0.4),
      ruleLine([area.x + square, rowY], [area.x + square, titleY], 0.18),
      ruleLine([notesX - GAP / 2, rowY], [notesX - GAP / 2, titleY], 0.18),
      ...best.legend.marks(legendX, rowY + 2),
      ...best.notes.marks(notesX, rowY + 2),
    ],
  };
}

/** Width of the column with the square and the title block. */
const COLUMN = 56;

/** All parts in one column at the right; none where they are taller than the sheet. */
function besidePlan(context: SheetContext, area: Rect, wishes: LayoutWishes): Draft | null {
  const width = 2 * LEGEND_COLUMN + 2 * GAP;
  const legend = legendPanel(context, wishes.legend, width - 2 * GAP);
  const notes = notesPanel(context, width - 2 * GAP, wishes.remarks);
  return column(context, area, { legend: null, last: [legend, notes], legendWidth: 0, width });
}

/**
 * The legend in columns of its own between the plan and the column with the title block; what does not fit there
 * goes on under the notes.
 */
const besideLegend =
  (legendColumns: number, legendColumn: number, width: number) =>
  (context: SheetContext, area: Rect, wishes: LayoutWishes): Draft | null => {
    const legendWidth = legendColumns * legendColumn + GAP;
    const inner = width - 2 * GAP;
    const fits = (count: number): boolean =>
      legendPanel(context, wishes.legend.slice(0, count), legendWidth - GAP).height + GAP + 1 <=
      area.height;
    let count = wishes.legend.length;
    while (count > 0 && !fits(count)) count--;
    const rest = wishes.legend.slice(count);
    const notes = notesPanel(context, inner, wishes.remarks);
    const last = rest.length === 0 ? [notes] : [notes, legendPanel(context, rest, inner, true)];
    const legend = legendPanel(context, wishes.legend.slice(0, count), legendWidth - GAP);
    return column(context, area, { legend, last, legendWidth, width });
  };

interface Columns {
  readonly legend: Panel | null;
  readonly legendWidth: number;
  /** What stands between the square and the title block. */
  readonly last: readonly Panel[];
  readonly width: number;
}

/** Parts at the right of the plan: at the edge, where one leafs, the square over the title block. */
function column(context: SheetContext, area: Rect, parts: Columns): Draft | null {
  const { legend, legendWidth, last, width } = parts;
  const square = squareRoom(context);
  const stack = last.reduce((sum, panel) => sum + panel.height + GAP, square + GAP);
  if (stack + TITLE_COLUMN_HEIGHT > area.height) return null;
  const right = area.x + area.width;
  const edge = right - width;
  const left = edge - legendWidth;
  if (left < area.x + 60) return null;
  const bottom = area.y + area.height;
  const titleY = bottom - TITLE_COLUMN_HEIGHT;
  const marks: Mark[] = [
    ruleLine([left, area.y], [left, bottom], 0.4),
    ruleLine([edge, area.y], [edge, bottom], legend ? 0.18 : 0.4),
    ruleLine([edge, area.y + square], [right, area.y + square], 0.18),
  ];
  if (legend) marks.push(...legend.marks(left + GAP / 2, area.y + GAP));
  let y = area.y + square + GAP;
  for (const panel of last) {
    marks.push(...panel.marks(edge + GAP, y));
    y += panel.height + GAP;
  }
  return {
    window: { x: area.x, y: area.y, width: left - area.x, height: area.height },
    square: [edge + (width - square + 4) / 2, area.y + 2],
    title: {
      area: { x: edge, y: titleY, width, height: TITLE_COLUMN_HEIGHT },
      shape: 'column',
    },
    marks,
  };
}

/** Ways to arrange a sheet; the one that lets the plan be largest is taken, the first among equals. */
const ARRANGEMENTS = [
  alongFoot,
  besidePlan,
  besideLegend(1, LEGEND_COLUMN, COLUMN),
  besideLegend(1, LEGEND_COLUMN, COLUMN + 8),
  besideLegend(1, LEGEND_COLUMN + 8, COLUMN),
  besideLegend(1, LEGEND_COLUMN + 6, COLUMN + 14),
  besideLegend(2, LEGEND_COLUMN, COLUMN),
];
