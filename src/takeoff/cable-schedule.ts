import type { Id } from '../base/ids.ts';
import { FOOT, METRE, type Units } from '../base/units.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { zoneAt } from '../plan/areas.ts';
import { type Built, builtLength, builtPorts } from '../plan/built.ts';
import { closetName, devicesAt, kindName, passName, pathwayName } from '../plan/names.ts';
import type { Plan, Zone } from '../plan/plan.ts';
import { inLabelOrder, portsOf } from '../results/ports.ts';
import { riserLength, risersOf } from '../results/risers.ts';
import type { BoxPlan, PartKind, Run, RunPart, RunStatus } from '../results/types.ts';
import { type Cell, toCsv } from './csv.ts';

/** One cable from the closet to its jack: a line of the cable schedule. Lengths in mm. */
export interface ScheduleRow {
  readonly jack: Id;
  /** On both ends of the cable, on the plate and on the panel. */
  readonly label: string;
  /** Null for one without a closet. Its name is not enough: two closets may have the same. */
  readonly closetId: Id | null;
  readonly closet: string;
  readonly port: number | null;
  readonly room: string;
  readonly outlet: Id;
  readonly device: string;
  readonly network: string;
  readonly levelId: Id;
  readonly level: string;
  /** What the cable passes from the jack to the closet, in order. */
  readonly path: string;
  /** The pin that it is made to pass; empty for one that is free. */
  readonly pin: string;
  readonly across: number;
  readonly vertical: number;
  /** Of its vertical length, what lies in risers. */
  readonly riser: number;
  readonly slack: number;
  readonly cable: number;
  readonly order: number;
  readonly channel: number;
  readonly limit: number;
  readonly status: RunStatus;
  /** The box that it is cut from; null for one without a way or longer than a box. */
  readonly box: number | null;
  /** What is recorded of it as built; null while nothing is. */
  readonly built: Built | null;
  /** Its length as it was built; null while that is not recorded. */
  readonly asBuilt: number | null;
}

/** The cable schedule, one row for each run in the order of the labels. */
export function cableSchedule(
  plan: Plan,
  kinds: KindRegistry,
  runs: readonly Run[],
  boxPlan: BoxPlan,
): ScheduleRow[] {
  const ports = portsOf(runs, builtPorts(plan));
  const boxes = new Map(
    boxPlan.boxes.flatMap((box) => box.jacks.map((jack) => [jack, box.number])),
  );
  return inLabelOrder(runs).map((run) => ({
    jack: run.jack,
    label: run.label,
    ...homeOf(plan, run),
    port: ports.get(run.jack) ?? null,
    outlet: run.outlet,
    ...placeOf(plan, run),
    ...served(plan, kinds, run),
    path: pathInWords(plan, run.parts, risersOf(run)),
    pin: pinOf(plan, run),
    across: run.across,
    vertical: run.vertical,
    riser: riserLength(run),
    slack: run.slack,
    cable: run.cable,
    order: run.order,
    channel: run.channel,
    limit: run.limit,
    status: run.status,
    box: boxes.get(run.jack) ?? null,
    ...builtOf(plan, run),
  }));
}

function builtOf(plan: Plan, run: Run): Pick<ScheduleRow, 'built' | 'asBuilt'> {
  const built = plan.tables.jacks.get(run.jack)?.built ?? null;
  return { built, asBuilt: builtLength(built) };
}

function homeOf(plan: Plan, run: Run): Pick<ScheduleRow, 'closetId' | 'closet'> {
  const closet = run.closet === null ? undefined : plan.tables.closets.get(run.closet);
  return { closetId: run.closet, closet: closet ? closetName(plan, closet) : '' };
}

/** The pin of a run, also of one that has no way past it. */
function pinOf(plan: Plan, run: Run): string {
  const id = plan.tables.jacks.get(run.jack)?.pin ?? run.pinned?.pin;
  const pin = plan.tables.pins.get(id ?? '');
  return pin ? passName(plan, 'pins', pin) : '';
}

/** What a room is called on a list: its name, or its service area while nobody named it. */
const roomName = (zone: Zone | null | undefined): string =>
  zone ? zone.name || `area ${zone.area}` : '';

function placeOf(plan: Plan, run: Run): Pick<ScheduleRow, 'room' | 'levelId' | 'level'> {
  const outlet = plan.tables.outlets.get(run.outlet);
  return {
    room: roomName(outlet && zoneAt(plan, outlet.level, outlet.at)),
    levelId: run.level,
    level: plan.tables.levels.get(run.level)?.name ?? '',
  };
}

/** The devices on a jack and the network that the first of them belongs on; `spare` for a jack without one. */
function served(plan: Plan, kinds: KindRegistry, run: Run) {
  if (run.device === null) return { device: 'spare', network: '' };
  const devices = devicesAt(plan, run.device);
  const own = devices.find((device) => device.id === run.device);
  return {
    device: devices.map((device) => device.name || kindName(kinds, device)).join(' + '),
    network: (own && kinds.get(own.kind)?.network) ?? '',
  };
}

const PART_WORDS: Readonly<Record<PartKind, string>> = {
  up: 'up',
  across: 'across',
  step: '',
  down: 'down',
  riser: 'riser',
  'outlet-slack': '',
  'field-loop': '',
  'closet-loop': '',
};

/**
 * The way in words, steps left out and neighbours alike put together: `up > Bar > hook line P1 > down`.
 *
 * @param risers the risers that it goes through in the order of its parts, by their ids
 */
export function pathInWords(
  plan: Plan,
  parts: readonly RunPart[],
  risers: readonly Id[] = [],
): string {
  const passed = parts.filter((part) => part.kind === 'riser');
  const nameOf = (part: RunPart): string => {
    const n = passed.indexOf(part);
    // Risers on top of one another are one part; the last is given all that are left.
    const here = n < 0 ? [] : risers.slice(n, n === passed.length - 1 ? undefined : n + 1);
    const rows = here.flatMap((id) => plan.tables.risers.get(id) ?? []);
    if (rows.length === 0) return partName(plan, part);
    return rows.map((riser) => passName(plan, 'risers', riser)).join(' > ');
  };
  const names = parts.map(nameOf).filter((name) => name !== '');
  return names.filter((name, i) => name !== names[i - 1]).join(' > ');
}

function partName(plan: Plan, part: RunPart): string {
  const pathway = part.pathway === null ? undefined : plan.tables.pathways.get(part.pathway);
  if (pathway) return pathwayName(pathway);
  const zone = part.zone === null ? undefined : plan.tables.zones.get(part.zone);
  return part.kind === 'across' && zone ? roomName(zone) : PART_WORDS[part.kind];
}

const STATUS_WORDS: Readonly<Record<RunStatus, string>> = {
  ok: 'ok',
  near: 'near the limit',
  over: 'too long',
  unroutable: 'no way to the closet',
};

const LENGTHS = [
  'across',
  'vertical',
  'riser',
  'slack',
  'cable',
  'order',
  'channel',
  'limit',
] as const;
const LENGTH_TITLES: Readonly<Record<(typeof LENGTHS)[number], string>> = {
  across: 'Across',
  vertical: 'Vertical',
  riser: 'In riser',
  slack: 'Slack',
  cable: 'Cable',
  order: 'Order',
  channel: 'Channel',
  limit: 'Limit',
};

const builtCells = (
  { built, asBuilt }: ScheduleRow,
  inUnits: (mm: number | null) => number | null,
): Cell[] => [
  ...[built?.start ?? null, built?.end ?? null, asBuilt].map(inUnits),
  asBuilt,
  ...[built?.test ?? null, built?.on || null, built?.by || null, built?.remark || null],
];

/** The schedule as CSV: each length in the job's units for reading, and in whole mm for reckoning. */
export function cableScheduleCsv(rows: readonly ScheduleRow[], units: Units): string {
  const inUnits = (mm: number): number =>
    units === 'ft' ? Math.round((mm / FOOT) * 10) / 10 : Math.round((mm / METRE) * 100) / 100;
  const header: Cell[] = [
    ...['Cable', 'From closet', 'Port', 'To room', 'Outlet', 'Device', 'Network', 'Level', 'Way'],
    'Pin',
    ...LENGTHS.map((name) => `${LENGTH_TITLES[name]} (${units})`),
    ...LENGTHS.map((name) => `${LENGTH_TITLES[name]} (mm)`),
    'Status',
    'Box',
    ...[`Start mark (${units})`, `End mark (${units})`, `As built (${units})`, 'As built (mm)'],
    ...['Test', 'Date', 'By', 'Remark'],
  ];
  const body = rows.map((row): Cell[] => [
    ...[row.label, row.closet, row.port, row.room, row.outlet],
    ...[row.device, row.network, row.level, row.path, row.pin],
    ...LENGTHS.map((name) => inUnits(row[name])),
    ...LENGTHS.map((name) => row[name]),
    STATUS_WORDS[row.status],
    row.box,
    ...builtCells(row, (mm) => (mm === null ? null : inUnits(mm))),
  ]);
  return toCsv([header, ...body]);
}
