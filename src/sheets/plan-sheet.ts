import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { msg } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import { GROUP_TITLES, type LeftOut, planMarks } from '../drawing/plan-marks.ts';
import { job, type Level } from '../plan/plan.ts';
import type { Finding } from '../results/types.ts';
import { border, type Rect, say } from './frame.ts';
import { legendItems } from './legend.ts';
import { type Extent, levelExtent } from './plan-extent.ts';
import { LABEL_ROOM, type PlanLayout, planLayout } from './plan-layout.ts';
import type { Page, Sheet, SheetContext } from './sheet.ts';
import { scaleWords, squareMarks } from './side-panel.ts';
import { titleColumn, titleStrip } from './title-block.ts';

/** The cabling plan: a page for each level with anything on it, at the largest standard scale that fits the paper. */
export const planSheet: Sheet = {
  id: 'plan',
  title: msg('Cabling plan'),
  pages: (context) =>
    [...context.plan.tables.levels.values()].flatMap((level) => levelPages(context, level)),
};

function levelPages(context: SheetContext, level: Level): Page[] {
  const extent = levelExtent(context.plan, context.survey, level.id);
  if (!extent) return [];
  const size = { width: extent.x1 - extent.x0, height: extent.y1 - extent.y0 };
  const legend = legendItems(context, level.id);
  const open = openWords(context, level);
  let layout = planLayout(context, { size, legend, remarks: open });
  let drawing = levelDrawing(context, level, extent, layout);
  if (drawing.leftOut.length > 0) {
    // What has no room is named on the sheet; the note takes room too, so the sheet is laid out anew.
    const remarks = [...open, leftOutWords(context, drawing.leftOut)];
    layout = planLayout(context, { size, legend, remarks });
    drawing = levelDrawing(context, level, extent, layout);
  }
  return [page(context, level, layout, drawing)];
}

/** Notes stay on the screen; what is to be mended or looked at goes out with the crew. */
const isOpen = ({ severity }: Finding): boolean => severity !== 'note';

/** So many open findings are written out; the rest is counted. */
const WRITTEN = 4;
/** Of more than so many of one rule, the first is written out for all. */
const ALIKE = 3;

/** The level that a finding is about; null for one that is about the job. */
const levelOf = ({ at, subjects }: Finding): Id | null =>
  at?.level ?? subjects.find(({ table }) => table === 'levels')?.id ?? null;

function openWords(context: SheetContext, level: Level): string[] {
  const here = context.survey.findings.filter(
    (finding) => isOpen(finding) && (levelOf(finding) ?? level.id) === level.id,
  );
  const said = [...groupBy(here, ({ rule }) => rule).values()].flatMap((alike) =>
    alike.length > ALIKE ? [alike] : alike.map((finding) => [finding]),
  );
  const words = said.slice(0, WRITTEN).map(([first, ...like]) => {
    const what = `${first!.severity === 'error' ? '! ' : ''}${say(context, first!.message)}`;
    if (like.length === 0) return what;
    return `${what} ${say(context, msg('And {more} more like this.', { more: like.length }))}`;
  });
  const more = said.slice(WRITTEN).flat().length;
  return more > 0 ? [...words, say(context, msg('And {more} more open checks.', { more }))] : words;
}

interface LevelDrawing {
  readonly marks: readonly Mark[];
  readonly perMm: number;
  readonly leftOut: readonly LeftOut[];
}

/** The level in the middle of its window, its layers as groups in mm of the building. */
function levelDrawing(
  context: SheetContext,
  level: Level,
  extent: Extent,
  { window, scale }: PlanLayout,
): LevelDrawing {
  const perMm = scale ? 1 / scale.ratio : freeScale(extent, window);
  const at = [
    window.x + window.width / 2 - ((extent.x0 + extent.x1) / 2) * perMm,
    window.y + window.height / 2 - ((extent.y0 + extent.y1) / 2) * perMm,
  ] as const;
  const inBuilding = (paper: Rect) => ({
    x0: (paper.x - at[0]) / perMm,
    y0: (paper.y - at[1]) / perMm,
    x1: (paper.x + paper.width - at[0]) / perMm,
    y1: (paper.y + paper.height - at[1]) / perMm,
  });
  const { measure, kinds, plan, survey } = context;
  const bounds = inBuilding({
    x: window.x + 1,
    y: window.y + 1,
    width: window.width - 2,
    height: window.height - 2,
  });
  const shown = { ...survey, findings: survey.findings.filter(isOpen) };
  const drawing = planMarks(plan, shown, {
    level: level.id,
    scale: perMm,
    kinds,
    measure,
    heights: true,
    attempts: 6,
    bounds,
  });
  const clip = inBuilding(window);
  const marks = drawing.layers.map(
    (layer): Mark => ({
      op: 'group',
      at,
      scale: perMm,
      layer: say(context, GROUP_TITLES[layer.group]),
      clip: [
        [clip.x0, clip.y0],
        [clip.x1, clip.y0],
        [clip.x1, clip.y1],
        [clip.x0, clip.y1],
      ],
      marks: layer.marks,
    }),
  );
  return { marks, perMm, leftOut: drawing.leftOut };
}

/** The scale of a level that fits no standard one: as large as the window allows. */
const freeScale = ({ x0, y0, x1, y1 }: Extent, window: Rect): number =>
  Math.min(
    (window.width - 2 * LABEL_ROOM) / (x1 - x0),
    (window.height - 2 * LABEL_ROOM) / (y1 - y0),
  );

function leftOutWords(context: SheetContext, leftOut: readonly LeftOut[]): string {
  const names = leftOut
    .slice(0, 12)
    .map(({ group, what }) =>
      group === 'counts' ? say(context, msg('count {what}', { what })) : what,
    );
  const more = leftOut.length - names.length;
  const list = names.join(', ') + (more > 0 ? say(context, msg(' and {more} more', { more })) : '');
  return say(context, msg('Not shown at this scale for want of room: {list}.', { list }));
}

function page(
  context: SheetContext,
  level: Level,
  layout: PlanLayout,
  drawing: LevelDrawing,
): Page {
  const { area, shape } = layout.title;
  const title = say(context, msg('Cabling plan, {level}', { level: level.name }));
  const facts = { title, scale: scaleWords(context, layout.scale) };
  const block = (shape === 'strip' ? titleStrip : titleColumn)(context, area, facts);
  const scale = { words: facts.scale, perMm: drawing.perMm };
  return {
    title: `${job(context.plan).name}: ${title}`,
    ...layout.page,
    marks: [
      ...drawing.marks,
      ...layout.marks,
      ...squareMarks(context, layout.square, scale),
      ...block.marks,
      border(layout.page),
    ],
    number: block.number,
  };
}
