import { groupBy } from '../base/group.ts';
import { INCH, type Units } from '../base/units.ts';
import { nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { areaAt } from '../plan/areas.ts';
import { builtState } from '../plan/built.ts';
import { labelParts } from '../plan/labels.ts';
import { type Jack, type Outlet, onLevel, refKey } from '../plan/plan.ts';
import { BUILT_WIDTH, builtMark } from './built-mark.ts';
import { areaInk, type Ink, type Mark } from './display.ts';
import { place } from './label-place.ts';
import { type Drafting, toBuilding } from './plan-view.ts';
import { byId, extent, leaderMark, putSymbol } from './put-symbol.ts';
import { jackSymbol, MOUNT_LETTER } from './symbols.ts';

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Labels of the jacks of one outlet, those of one number put together: `A3, -2`. */
export function jackWords(jacks: readonly Pick<Jack, 'label'>[]): string {
  const words: string[] = [];
  let base = '';
  const ordered = jacks
    .map((jack) => ({ label: jack.label, ...labelParts(jack.label) }))
    .sort((a, b) => compare(a.area, b.area) || a.number - b.number || a.cable - b.cable);
  for (const { label } of ordered) {
    const [main, cable] = label.split('-') as [string, string?];
    words.push(main === base && cable !== undefined ? `-${cable}` : label);
    base = main;
  }
  return words.join(',');
}

/** Height above the floor and how it is mounted, as the crew reads it beside the jack: `+48" W`, `+1.22 W`. */
export function heightWords(outlet: Pick<Outlet, 'height' | 'mount'>, units: Units): string {
  const value =
    units === 'ft' ? `${Math.round(outlet.height / INCH)}"` : (outlet.height / 1000).toFixed(2);
  return `+${value} ${MOUNT_LETTER[outlet.mount]}`;
}

/** Degrees by which the triangle turns, so that its base lies on the wall's face and it points into the room. */
function outletTurn({ plan }: Drafting, outlet: Outlet): number | null {
  const wall = outlet.wall === null ? undefined : plan.tables.walls.get(outlet.wall);
  if (!wall) return null;
  const foot = nearestOnSegment(wall.a, wall.b, outlet.at);
  const nx = outlet.at[0] - foot[0];
  const ny = outlet.at[1] - foot[1];
  return nx === 0 && ny === 0 ? null : (Math.atan2(nx, -ny) * 180) / Math.PI;
}

/** A label that is still to be put. */
export interface Label {
  readonly urgent: boolean;
  readonly put: () => void;
}

/** Outlets with their jacks; returns what puts their labels, to be called when symbols have their room. */
export function outletMarks(drafting: Drafting): Label[] {
  const { plan, view, wants } = drafting;
  if (!wants('outlets')) return [];
  const jacksAt = groupBy(plan.tables.jacks.values(), ({ outlet }) => outlet);
  const labels: Label[] = [];
  for (const outlet of onLevel(plan, 'outlets', view.level).sort(byId)) {
    const jacks = jacksAt.get(outlet.id) ?? [];
    const area = jacks[0]?.label.charAt(0) ?? areaAt(plan, outlet.level, outlet.at);
    const ink: Ink = `area-${areaInk(area)}`;
    const turn = outletTurn(drafting, outlet);
    const at = turn === null ? outlet.at : offWall(drafting, outlet.at, turn);
    const marks = jackSymbol(jacks.length, ink, outlet.mount, turn ?? 0);
    const { width, height } = extent(marks);
    const reach = Math.max(width, height) / 2 + 0.2;
    const what = jackWords(jacks) || outlet.id;
    const placed = putSymbol(drafting, {
      group: 'outlets',
      at,
      size: { width: reach * 2, height: reach * 2 },
      marks,
      ink,
      what,
      row: { table: 'outlets', id: outlet.id },
    });
    if (placed)
      labels.push({
        urgent: drafting.urgent('outlets', what),
        put: () => jackLabel(drafting, outlet, jacks, placed.at, reach, ink),
      });
  }
  return labels;
}

/** The triangle's middle, when its base lies on the wall at a place. */
function offWall({ view }: Drafting, [x, y]: Point, turn: number): Point {
  const off = 1.34 / view.scale;
  const a = (turn * Math.PI) / 180;
  return [x + Math.sin(a) * off, y - Math.cos(a) * off];
}

const LABEL_SIZE = 2.5;
const HEIGHT_SIZE = 2;

function jackLabel(
  drafting: Drafting,
  outlet: Outlet,
  jacks: readonly Jack[],
  anchor: Point,
  reach: number,
  ink: Ink,
): void {
  const { view, field, units, put, leaveOut } = drafting;
  const words = jackWords(jacks);
  if (words === '') return;
  const under = view.heights ? heightWords(outlet, units) : '';
  const state = builtState(jacks);
  const aside = state === 'none' ? 0 : BUILT_WIDTH;
  const letters = view.measure.width(words, LABEL_SIZE, 'mono', true);
  const width = Math.max(letters + aside, view.measure.width(under, HEIGHT_SIZE, 'sans', false));
  const height = under === '' ? 2.2 : 4;
  const placed = place(field, { anchor, reach, width: width + 0.5, height, onAnchor: false });
  if (!placed) {
    leaveOut('outlets', words);
    return;
  }
  const row = { table: 'outlets', id: outlet.id } as const;
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, ink, row));
  const y = under === '' ? 0 : -0.95;
  const marks: Mark[] = [
    ...builtMark(state, 0.85 - (letters + aside) / 2, y, ink),
    {
      op: 'text',
      at: [aside / 2, y],
      text: words,
      size: LABEL_SIZE,
      face: 'mono',
      bold: true,
      ink,
      align: 'centre',
      vertical: 'middle',
      halo: 'paper',
    },
  ];
  if (under !== '')
    marks.push({
      op: 'text',
      at: [0, 1.15],
      text: under,
      size: HEIGHT_SIZE,
      ink: 'ink',
      align: 'centre',
      vertical: 'middle',
      halo: 'paper',
    });
  put('outlets', { op: 'symbol', at: toBuilding(view, placed.at), of: refKey(row), marks });
}
