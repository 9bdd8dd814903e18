import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { type Message, msg, renderMessage } from '../base/message.ts';
import { formatLength } from '../base/units.ts';
import { builtMark } from '../drawing/built-mark.ts';
import { levelCrossings } from '../drawing/crossing-marks.ts';
import { deviceSymbol } from '../drawing/device-symbol.ts';
import type { Mark, Style } from '../drawing/display.ts';
import { heightWords } from '../drawing/outlet-marks.ts';
import { pathwayLines } from '../drawing/pathway-lines.ts';
import { goesUp } from '../drawing/riser-marks.ts';
import { KEEPOUT_STYLE, wallStyles } from '../drawing/room-marks.ts';
import {
  closetSymbol,
  countBadge,
  crossingSymbol,
  findingSymbol,
  jackSymbol,
  MOUNT_LETTER,
  pinSymbol,
  powerSymbol,
  rect,
  riserSymbol,
} from '../drawing/symbols.ts';
import { builtState } from '../plan/built.ts';
import { risersOn } from '../plan/levels.ts';
import { job, type Outlet, onLevel, type Pathway, type Wall } from '../plan/plan.ts';
import type { CrossingWork, Way } from '../results/types.ts';
import type { SheetContext } from './sheet.ts';

/** A line of the legend: a symbol round its middle, within 9 × 4 mm, and what it means. */
export interface LegendItem {
  readonly marks: readonly Mark[];
  readonly words: string;
}

type Add = (marks: readonly Mark[], words: Message) => void;

/** The legend of a level, made from what stands on it: nothing that is not there, nothing there that is missing. */
export function legendItems(context: SheetContext, level: Id): LegendItem[] {
  const { units } = job(context.plan);
  const items: LegendItem[] = [];
  const add: Add = (marks, words) => {
    items.push({ marks, words: renderMessage(words, units) });
  };
  deviceItems(context, level, add);
  outletItems(context, level, add);
  cableItems(context, level, add);
  riserItems(context, level, add);
  pathwayItems(context, level, add);
  wallItems(context, level, add);
  roomItems(context, level, add);
  findingItems(context, level, add);
  return items;
}

function deviceItems({ plan, kinds }: SheetContext, level: Id, add: Add): void {
  const counts = new Map<string, number>();
  for (const device of onLevel(plan, 'devices', level))
    counts.set(device.kind, (counts.get(device.kind) ?? 0) + 1);
  for (const kind of kinds.values()) {
    const count = counts.get(kind.id);
    if (count === undefined) continue;
    counts.delete(kind.id);
    add(
      deviceSymbol(kind, 'ink'),
      msg('{kind} ({count})', { kind: kind.label.text, count: String(count) }),
    );
  }
  for (const [id, count] of counts)
    add(deviceSymbol(undefined, 'ink'), msg('{kind} ({count}), unknown kind', { kind: id, count }));
}

const MOUNT_WORDS: Readonly<Record<Outlet['mount'], string>> = {
  wall: 'wall',
  ceiling: 'ceiling',
  pole: 'pole',
  casework: 'casework',
  floor: 'floor box',
};

function outletItems({ plan }: SheetContext, level: Id, add: Add): void {
  const outlets = onLevel(plan, 'outlets', level);
  const mounts = (Object.keys(MOUNT_WORDS) as Outlet['mount'][]).filter((mount) =>
    outlets.some((outlet) => outlet.mount === mount),
  );
  if (mounts.some((mount) => mount !== 'ceiling' && mount !== 'floor'))
    add(jackSymbol(2, 'ink', 'wall'), msg('Jacks, their number inside'));
  if (mounts.includes('ceiling')) add(jackSymbol(1, 'ink', 'ceiling'), msg('Jack on the ceiling'));
  if (mounts.includes('floor')) add(jackSymbol(1, 'ink', 'floor'), msg('Jack in a floor box'));
  if (mounts.length > 0) {
    const mount = mounts[0]!;
    const sample = heightWords({ height: 457, mount }, job(plan).units);
    const letters = mounts.map((m) => `${MOUNT_LETTER[m]} ${MOUNT_WORDS[m]}`).join(', ');
    add([words(sample)], msg('Height above the floor; {letters}', { letters }));
  }
  const here = new Set(outlets.map((outlet) => outlet.id));
  const doubled = [...plan.tables.jacks.values()].some(
    (jack) => here.has(jack.outlet) && jack.label.includes('-'),
  );
  if (doubled) add([words('A1,-2', 'mono')], msg('Jacks A1 and A1-2'));
  const atOutlets = groupBy(plan.tables.jacks.values(), (jack) => jack.outlet);
  const states = new Set(outlets.map((outlet) => builtState(atOutlets.get(outlet.id) ?? [])));
  if (states.has('recorded') || states.has('passed'))
    add(builtMark('recorded', 0, 0, 'ink'), msg('Recorded as built'));
  if (states.has('failed')) add(builtMark('failed', 0, 0, 'ink'), msg('Failed its test'));
  if (onLevel(plan, 'powers', level).length > 0) add(powerSymbol(), msg('Power outlet'));
  if (onLevel(plan, 'closets', level).length > 0) add(closetSymbol(), msg('Network closet'));
}

const words = (text: string, face: 'sans' | 'mono' = 'sans'): Mark => ({
  op: 'text',
  at: [0, 0],
  text,
  size: 2.1,
  face,
  bold: face === 'mono',
  ink: 'ink',
  align: 'centre',
  vertical: 'middle',
});

const sample = (style: Style): Mark => ({
  op: 'line',
  points: [
    [-4.2, 0],
    [4.2, 0],
  ],
  style,
});

function cableItems(context: SheetContext, level: Id, add: Add): void {
  const { plan, survey } = context;
  const ways = survey.ways.filter((way) => way.level === level);
  const flat = ways.filter((way) => way.from[0] !== way.to[0] || way.from[1] !== way.to[1]);
  const areas = (way: Way): Set<string> =>
    new Set(way.jacks.map((id) => plan.tables.jacks.get(id)?.label.charAt(0) ?? ''));
  if (flat.length > 0)
    add(
      [sample({ stroke: 'cable', width: 0.9 }), ...countBadge('12', 2.4, 'cable')],
      msg('Cables in one way: wider line, their number'),
    );
  if (flat.some((way) => way.jacks.length > 1 && areas(way).size === 1))
    add(
      [sample({ stroke: 'area-0', width: 0.5 }), ...countBadge('2 A', 3.2, 'area-0')],
      msg('All of one area: its letter'),
    );
  crossingItems(context, level, add);
}

function riserItems({ plan }: SheetContext, level: Id, add: Add): void {
  const risers = risersOn(plan, level);
  if (risers.some((riser) => goesUp(riser, level)))
    add(riserSymbol(true), msg('Riser, up to the level named'));
  if (risers.some((riser) => !goesUp(riser, level)))
    add(riserSymbol(false), msg('Riser, down to the level named'));
  if (onLevel(plan, 'pins', level).length > 0) add(pinSymbol(), msg('Runs are made to pass here'));
}

const CROSSING_WORDS: Readonly<Record<CrossingWork, string>> = {
  none: 'Cables through a wall',
  sleeve: 'Sleeve',
  core: 'Core drilled hole',
  seal: 'Sealed hole',
};

function crossingItems({ plan, survey, kinds, measure }: SheetContext, level: Id, add: Add): void {
  const view = { level, scale: 1, kinds, measure };
  const seen = new Set<string>();
  for (const { work, firestop } of levelCrossings({ plan, view }, survey.runs)) {
    const marks = crossingSymbol(work, firestop);
    const key = `${work} ${firestop}`;
    if (marks.length === 0 || seen.has(key)) continue;
    seen.add(key);
    const name = CROSSING_WORDS[work];
    add(marks, firestop ? msg('{name}, firestopped', { name }) : msg('{name}', { name }));
  }
}

const PATHWAY_WORDS: Readonly<Record<Pathway['kind'], string>> = {
  'hook-line': 'Hook line',
  tray: 'Cable tray',
  conduit: 'Conduit',
  raceway: 'Surface raceway',
  sleeve: 'Sleeve',
  'under-slab': 'Conduit under the slab',
};

function pathwayItems({ plan }: SheetContext, level: Id, add: Add): void {
  const present = new Set(onLevel(plan, 'pathways', level).map((pathway) => pathway.kind));
  for (const kind of Object.keys(PATHWAY_WORDS) as Pathway['kind'][])
    if (present.has(kind))
      add(
        pathwayLines(
          kind,
          [
            [-4.2, 0],
            [4.2, 0],
          ],
          1,
        ),
        msg(PATHWAY_WORDS[kind]),
      );
}

const WALL_WORDS: Readonly<Record<Wall['construction'], string>> = {
  framed: 'Framed wall',
  masonry: 'Masonry wall',
  insulated: 'Insulated panel',
};

function wallItems({ plan }: SheetContext, level: Id, add: Add): void {
  const walls = onLevel(plan, 'walls', level);
  const swatch = (wall: Pick<Wall, 'rated' | 'construction'>, height: number): Mark[] =>
    wallStyles(wall).map((style) => rect(-4.2, -height / 2, 8.4, height, style));
  for (const construction of Object.keys(WALL_WORDS) as Wall['construction'][])
    if (walls.some((wall) => wall.construction === construction && !wall.rated))
      add(swatch({ construction, rated: false }, 1.3), msg(WALL_WORDS[construction]));
  if (walls.some((wall) => wall.rated))
    add(swatch({ construction: 'framed', rated: true }, 1.6), msg('Fire-rated wall'));
}

const CEILING_WORDS = {
  tile: 'TILE lay-in',
  open: 'OPEN none',
  hard: 'HARD closed',
} as const;

function roomItems({ plan }: SheetContext, level: Id, add: Add): void {
  const zones = onLevel(plan, 'zones', level);
  if (zones.length > 0) {
    const letter = zones[0]!.area;
    add(
      [{ ...words(letter), size: 3.8, bold: true, ink: 'ink' } as Mark],
      msg('Service area: letter, tint'),
    );
    const present = (['tile', 'open', 'hard'] as const).filter((kind) =>
      zones.some((zone) => zone.ceiling.kind === kind),
    );
    const names = present.map((kind) => CEILING_WORDS[kind]).join(', ');
    const { ceiling } = zones[0]!;
    const height = formatLength(ceiling.height, job(plan).units);
    const word = CEILING_WORDS[ceiling.kind].split(' ')[0]!;
    // Below each other: in metres they are too wide for the symbol's column.
    const line = (text: string, y: number) => ({ ...words(text), at: [0, y], size: 1.8 }) as Mark;
    add([line(word, -1.05), line(height, 1.05)], msg('Ceiling and its height: {names}', { names }));
    if (present.includes('hard'))
      add(
        [rect(-4.2, -1.6, 8.4, 3.2, { stroke: 'faint', width: 0.13, hatch: 'diagonal' })],
        msg('Closed ceiling, no access'),
      );
  }
  if (onLevel(plan, 'keepouts', level).length > 0)
    add([rect(-4.2, -1.6, 8.4, 3.2, KEEPOUT_STYLE)], msg('Keep out: no cable here'));
}

function findingItems({ survey }: SheetContext, level: Id, add: Add): void {
  const here = (severity: string): boolean =>
    survey.findings.some((f) => f.severity === severity && f.at?.level === level);
  if (here('error')) add(findingSymbol('error'), msg('Open check, to mend first'));
  if (here('warning')) add(findingSymbol('warning'), msg('Open check, to look at'));
}
