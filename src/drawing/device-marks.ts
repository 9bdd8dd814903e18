import type { Id } from '../base/ids.ts';
import { INCH, type Units } from '../base/units.ts';
import { nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { areaAt } from '../plan/areas.ts';
import { type Device, type Jack, type Outlet, onLevel, type Ref, refKey } from '../plan/plan.ts';
import { areaInk, type Ink, type Mark } from './display.ts';
import { boxAround, type Placed, place, take } from './label-place.ts';
import { type Drafting, toBuilding, toPaper } from './plan-view.ts';
import {
  closetSymbol,
  FINDING_REACH,
  findingSymbol,
  jackSymbol,
  MOUNT_LETTER,
  POWER_REACH,
  powerSymbol,
} from './symbols.ts';
import { leaderMark } from './way-marks.ts';

const byId = (a: { id: Id }, b: { id: Id }): number =>
  a.id.localeCompare(b.id, 'en', { numeric: true });

/**
 * Closets, jacks, devices and power outlets, in this order of right to their own place. Returns what puts the labels,
 * to be called when other symbols have their room.
 */
export function deviceMarks(drafting: Drafting): () => void {
  closetMarks(drafting);
  const labels = outletMarks(drafting);
  for (const label of labels) if (label.urgent) label.put();
  devices(drafting);
  powerMarks(drafting);
  return () => {
    for (const label of labels) if (!label.urgent) label.put();
  };
}

/** Puts a symbol at its place, or aside on a leader; with `spread` off always at its place. */
function putSymbol(
  drafting: Drafting,
  group: 'outlets' | 'devices' | 'power' | 'closets' | 'findings',
  at: Point,
  size: { width: number; height: number },
  marks: readonly Mark[],
  ink: Ink,
  what: string,
  row?: Ref,
): Placed | null {
  const { view, field, put, leaveOut } = drafting;
  const anchor = toPaper(view, at);
  let placed: Placed | null = { at: anchor, leader: null };
  if (view.spread ?? true) placed = place(field, { anchor, reach: 0.3, ...size, onAnchor: true });
  else take(field, boxAround(anchor, size.width, size.height));
  if (!placed) {
    leaveOut(group, what);
    if (!view.keep) return null;
    placed = { at: anchor, leader: null };
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, ink));
  const named = row ? { row: refKey(row) } : {};
  put(group, { op: 'symbol', at: toBuilding(view, placed.at), ...named, marks });
  return placed;
}

function closetMarks(drafting: Drafting): void {
  const { plan, view, field, wants, put } = drafting;
  if (!wants('closets')) return;
  for (const closet of onLevel(plan, 'closets', view.level)) {
    take(field, boxAround(toPaper(view, closet.at), 6.8, 5.6));
    put('closets', { op: 'symbol', at: closet.at, marks: closetSymbol() });
    const width = view.measure.width(closet.name, 2.3, 'sans', true);
    const placed = place(field, {
      anchor: toPaper(view, closet.at),
      reach: 2.9,
      width: width + 0.4,
      height: 2.4,
      onAnchor: false,
    });
    if (placed)
      put('closets', {
        op: 'symbol',
        at: toBuilding(view, placed.at),
        marks: [
          {
            op: 'text',
            at: [0, 0],
            text: closet.name,
            size: 2.3,
            bold: true,
            ink: 'ink',
            align: 'centre',
            vertical: 'middle',
            halo: 'paper',
          },
        ],
      });
    else drafting.leaveOut('closets', closet.name);
  }
}

/** Labels of the jacks of one outlet, those of one number put together: `A3, -2`. */
export function jackWords(jacks: readonly Pick<Jack, 'label'>[]): string {
  const words: string[] = [];
  let base = '';
  const ordered = jacks
    .map((jack) => jack.label)
    .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  for (const label of ordered) {
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

interface Label {
  readonly urgent: boolean;
  readonly put: () => void;
}

function outletMarks(drafting: Drafting): Label[] {
  const { plan, view, wants } = drafting;
  if (!wants('outlets')) return [];
  const jacksAt = new Map<Id, Jack[]>();
  for (const jack of plan.tables.jacks.values()) push(jacksAt, jack.outlet, jack);
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
    const placed = putSymbol(
      drafting,
      'outlets',
      at,
      { width: reach * 2, height: reach * 2 },
      marks,
      ink,
      jackWords(jacks) || outlet.id,
      { table: 'outlets', id: outlet.id },
    );
    if (placed)
      labels.push({
        urgent: drafting.urgent('outlets', jackWords(jacks)),
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

function push<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
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
  const width = Math.max(
    view.measure.width(words, LABEL_SIZE, 'mono', true),
    view.measure.width(under, HEIGHT_SIZE, 'sans', false),
  );
  const height = under === '' ? 2.2 : 4;
  const placed = place(field, { anchor, reach, width: width + 0.5, height, onAnchor: false });
  if (!placed) {
    leaveOut('outlets', words);
    return;
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, ink));
  const marks: Mark[] = [
    {
      op: 'text',
      at: [0, under === '' ? 0 : -0.95],
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
  put('outlets', { op: 'symbol', at: toBuilding(view, placed.at), marks });
}

/** How far marks in paper mm reach from their origin. */
export function extent(marks: readonly Mark[]): { width: number; height: number } {
  let x = 0;
  let y = 0;
  for (const mark of marks) {
    if (mark.op === 'line')
      for (const p of mark.points) {
        x = Math.max(x, Math.abs(p[0]));
        y = Math.max(y, Math.abs(p[1]));
      }
    if (mark.op === 'circle') {
      x = Math.max(x, Math.abs(mark.at[0]) + mark.radius);
      y = Math.max(y, Math.abs(mark.at[1]) + mark.radius);
    }
  }
  return { width: x * 2, height: y * 2 };
}

/** A symbol's outline in another ink; letters and fills stay. */
export const inkedIn = (marks: readonly Mark[], ink: Ink): Mark[] =>
  marks.map((mark) =>
    (mark.op === 'line' || mark.op === 'circle') && mark.style.stroke === 'ink'
      ? { ...mark, style: { ...mark.style, stroke: ink } }
      : mark,
  );

/** A device's symbol with its two letters; a kind that the registry does not know is a box with question marks. */
export function deviceSymbol(
  kind: { readonly code: string; readonly symbol: readonly Mark[] } | undefined,
  ink: Ink,
): Mark[] {
  const outline = kind?.symbol ?? UNKNOWN;
  return [
    ...inkedIn(outline, ink),
    {
      op: 'text',
      at: [0, 0],
      text: kind?.code ?? '??',
      size: 2.5,
      bold: true,
      ink,
      align: 'centre',
      vertical: 'middle',
    },
  ];
}

const UNKNOWN: readonly Mark[] = [
  {
    op: 'line',
    closed: true,
    points: [
      [-2.9, -2],
      [2.9, -2],
      [2.9, 2],
      [-2.9, 2],
    ],
    style: { stroke: 'ink', width: 0.3, fill: 'paper', dash: [0.8, 0.6] },
  },
];

function devices(drafting: Drafting): void {
  const { plan, view, wants } = drafting;
  if (!wants('devices')) return;
  const areaOf = new Map<Id, string>();
  for (const jack of plan.tables.jacks.values())
    if (jack.device !== null && !areaOf.has(jack.device))
      areaOf.set(jack.device, jack.label.charAt(0));
  const area = (device: Device): string =>
    areaOf.get(device.host ?? device.id) ?? areaAt(plan, device.level, device.at);
  const late = (device: Device): number =>
    drafting.urgent('devices', device.name || device.id) ? 0 : 1;
  const rows = onLevel(plan, 'devices', view.level).sort((a, b) => late(a) - late(b) || byId(a, b));
  for (const device of rows) {
    const ink: Ink = `area-${areaInk(area(device))}`;
    const marks = deviceSymbol(view.kinds.get(device.kind), ink);
    const { width, height } = extent(marks);
    putSymbol(
      drafting,
      'devices',
      device.at,
      { width: width + 0.5, height: height + 0.5 },
      marks,
      ink,
      device.name || device.id,
      { table: 'devices', id: device.id },
    );
  }
}

function powerMarks(drafting: Drafting): void {
  const { plan, view, wants } = drafting;
  if (!wants('power')) return;
  for (const power of onLevel(plan, 'powers', view.level).sort(byId))
    putSymbol(
      drafting,
      'power',
      power.at,
      { width: 3, height: POWER_REACH * 2 },
      powerSymbol(),
      'ink',
      power.name || power.id,
      { table: 'powers', id: power.id },
    );
}

/** Findings at their places. */
export function findingMarks(drafting: Drafting): void {
  const { survey, view, wants } = drafting;
  if (!wants('findings')) return;
  for (const finding of survey?.findings ?? []) {
    if (finding.at?.level !== view.level) continue;
    const size = FINDING_REACH * 2;
    putSymbol(
      drafting,
      'findings',
      finding.at.point,
      { width: size, height: size },
      findingSymbol(finding.severity),
      'warn',
      finding.rule,
    );
  }
}
