import type { Id } from '../base/ids.ts';
import type { Steps } from '../base/steps.ts';
import { areaAt } from '../plan/areas.ts';
import { type Device, onLevel } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import { deviceSymbol } from './device-symbol.ts';
import { areaInk, type Ink } from './display.ts';
import { take } from './label-place.ts';
import { outletMarks } from './outlet-marks.ts';
import { type Drafting, toPaper } from './plan-view.ts';
import { putName } from './put-name.ts';
import { byId, extent, putSymbol } from './put-symbol.ts';
import { closetSymbol, FINDING_REACH, findingSymbol, POWER_REACH, powerSymbol } from './symbols.ts';

/**
 * Closets, jacks, devices and power outlets, in this order of right to their own place. Returns what puts the labels,
 * to be called when other symbols have their room.
 */
export function* deviceMarks(drafting: Drafting): Steps<() => Steps<void>> {
  closetMarks(drafting);
  yield;
  const labels = outletMarks(drafting);
  yield;
  for (const label of labels) if (label.urgent) label.put();
  yield* devices(drafting);
  yield;
  powerMarks(drafting);
  return function* () {
    for (const [i, label] of labels.entries()) {
      if (!label.urgent) label.put();
      if (i % AT_ONCE === 0) yield;
    }
  };
}

function closetMarks(drafting: Drafting): void {
  const { plan, view, field, wants, put } = drafting;
  if (!wants('closets')) return;
  for (const closet of onLevel(plan, 'closets', view.level)) {
    take(field, boxAround(toPaper(view, closet.at), 6.8, 5.6));
    put('closets', { op: 'symbol', at: closet.at, marks: closetSymbol() });
    putName(drafting, {
      group: 'closets',
      at: closet.at,
      reach: 2.9,
      lines: [{ text: closet.name, size: 2.3, bold: true, ink: 'ink' }],
      ink: 'ink',
    });
  }
}

/** So many symbols or labels are placed in one step. */
const AT_ONCE = 20;

function* devices(drafting: Drafting): Steps<void> {
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
  for (const [i, device] of rows.entries()) {
    if (i % AT_ONCE === 0) yield;
    const ink: Ink = `area-${areaInk(area(device))}`;
    const marks = deviceSymbol(view.kinds.get(device.kind), ink);
    const { width, height } = extent(marks);
    putSymbol(drafting, {
      group: 'devices',
      at: device.at,
      size: { width: width + 0.5, height: height + 0.5 },
      marks,
      ink,
      what: device.name || device.id,
      row: { table: 'devices', id: device.id },
    });
  }
}

function powerMarks(drafting: Drafting): void {
  const { plan, view, wants } = drafting;
  if (!wants('power')) return;
  for (const power of onLevel(plan, 'powers', view.level).sort(byId))
    putSymbol(drafting, {
      group: 'power',
      at: power.at,
      size: { width: 3, height: POWER_REACH * 2 },
      marks: powerSymbol(),
      ink: 'ink',
      what: power.name || power.id,
      row: { table: 'powers', id: power.id },
    });
}

/** Findings at their places. */
export function findingMarks(drafting: Drafting): void {
  const { survey, view, wants } = drafting;
  if (!wants('findings')) return;
  for (const finding of survey?.findings ?? []) {
    if (finding.at?.level !== view.level) continue;
    const size = FINDING_REACH * 2;
    putSymbol(drafting, {
      group: 'findings',
      at: finding.at.point,
      size: { width: size, height: size },
      marks: findingSymbol(finding.severity),
      ink: 'warn',
      what: finding.rule,
    });
  }
}
