import type { Id } from '../base/ids.ts';
import { FOOT, METRE, type Units } from '../base/units.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { zoneAt } from '../plan/areas.ts';
import { devicesAt, kindName, pathwayName } from '../plan/names.ts';
import type { Plan, Zone } from '../plan/plan.ts';
import type { BoxPlan, PartKind, Run, RunPart, RunStatus } from '../results/types.ts';
import { type Cell, toCsv } from './csv.ts';
import { inLabelOrder, portMap } from './ports.ts';

/** One cable from the closet to its jack: a line of the cable schedule. Lengths in mm. */
export interface ScheduleRow {
  readonly jack: Id;
  /** On both ends of the cable, on the plate and on the panel. */
  readonly label: string;
  readonly closet: string;
  readonly port: number | null;
  readonly room: string;
  readonly outlet: Id;
  readonly device: string;
  readonly network: string;
  readonly level: string;
  /** What the cable passes from the jack to the closet, in order. */
  readonly path: string;
  readonly across: number;
  readonly vertical: number;
  readonly slack: number;
  readonly cable: number;
  readonly order: number;
  readonly channel: number;
  readonly limit: number;
  readonly status: RunStatus;
  /** The box that it is cut from; null for one without a way or longer than a box. */
  readonly box: number | null;
}

/** The cable schedule, one row for each run in the order of the labels. */
export function cableSchedule(
  plan: Plan,
  kinds: KindRegistry,
  runs: readonly Run[],
  boxPlan: BoxPlan,
): ScheduleRow[] {
  const ports = new Map([...portMap(runs).values()].flat().map((use) => [use.jack, use.port]));
  const boxes = new Map(
    boxPlan.boxes.flatMap((box) => box.jacks.map((jack) => [jack, box.number])),
  );
  return inLabelOrder(runs).map((run) => ({
    jack: run.jack,
    label: run.label,
    closet: run.closet === null ? '' : (plan.tables.closets.get(run.closet)?.name ?? ''),
    port: ports.get(run.jack) ?? null,
    outlet: run.outlet,
    ...placeOf(plan, run),
    ...served(plan, kinds, run),
    path: pathInWords(plan, run.parts),
    across: run.across,
    vertical: run.vertical,
    slack: run.slack,
    cable: run.cable,
    order: run.order,
    channel: run.channel,
    limit: run.limit,
    status: run.status,
    box: boxes.get(run.jack) ?? null,
  }));
}

/** What a room is called on a list: its name, or its service area while nobody named it. */
const roomName = (zone: Zone | null | undefined): string =>
  zone ? zone.name || `area ${zone.area}` : '';

function placeOf(plan: Plan, run: Run): Pick<ScheduleRow, 'room' | 'level'> {
  const outlet = plan.tables.outlets.get(run.outlet);
  return {
    room: roomName(outlet && zoneAt(plan, outlet.level, outlet.at)),
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

/** The way in words, steps left out and neighbours alike put together: `up > Bar > hook line P1 > down`. */
export function pathInWords(plan: Plan, parts: readonly RunPart[]): string {
  const names = parts.map((part) => partName(plan, part)).filter((name) => name !== '');
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

const LENGTHS = ['across', 'vertical', 'slack', 'cable', 'order', 'channel', 'limit'] as const;
const LENGTH_TITLES: Readonly<Record<(typeof LENGTHS)[number], string>> = {
  across: 'Across',
  vertical: 'Vertical',
  slack: 'Slack',
  cable: 'Cable',
  order: 'Order',
  channel: 'Channel',
  limit: 'Limit',
};

/** The schedule as CSV: each length in the job's units for reading, and in whole mm for reckoning. */
export function cableScheduleCsv(rows: readonly ScheduleRow[], units: Units): string {
  const inUnits = (mm: number): number =>
    units === 'ft' ? Math.round((mm / FOOT) * 10) / 10 : Math.round((mm / METRE) * 100) / 100;
  const header: Cell[] = [
    ...['Cable', 'From closet', 'Port', 'To room', 'Outlet', 'Device', 'Network', 'Level', 'Way'],
    ...LENGTHS.map((name) => `${LENGTH_TITLES[name]} (${units})`),
    ...LENGTHS.map((name) => `${LENGTH_TITLES[name]} (mm)`),
    'Status',
    'Box',
  ];
  const body = rows.map((row): Cell[] => [
    ...[row.label, row.closet, row.port, row.room, row.outlet],
    ...[row.device, row.network, row.level, row.path],
    ...LENGTHS.map((name) => inUnits(row[name])),
    ...LENGTHS.map((name) => row[name]),
    STATUS_WORDS[row.status],
    row.box,
  ]);
  return toCsv([header, ...body]);
}
