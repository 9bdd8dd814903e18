import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { FOOT } from '../base/units.ts';
import { chainLength } from '../geometry/nearest.ts';
import {
  type Outlet,
  type Pathway,
  type Plan,
  type Prices,
  prices,
  settings,
} from '../plan/plan.ts';
import { runsByRiser } from '../results/risers.ts';
import type { BoxPlan, Run, Way } from '../results/types.ts';
import { holes } from './holes.ts';
import { racewayLength, supportedLength } from './supports.ts';

/** Parts that the price book knows, by the name of their price. */
export type Part =
  | 'cableBox'
  | 'jack'
  | 'plate'
  | 'bracket'
  | 'ceilingBox'
  | 'floorBox'
  | 'pole'
  | 'panel24'
  | 'panel48'
  | 'support'
  | 'trayLength'
  | 'conduitLength'
  | 'racewayLength'
  | 'deviceCord'
  | 'closetCord'
  | 'label'
  | 'sleeve'
  | 'coreDrill'
  | 'firestop'
  | 'seal';

export type Quantities = Readonly<Record<Part, number>>;

/** A support each 1.2 m: common practice (4 ft); ANSI/TIA-569 lets at most 1.5 m. */
const SUPPORT_SPACING = 1200;

/** Spare ports on the panels, in percent; common practice. */
const SPARE_PORTS_PERCENT = 25;

/** Labels for one cable: on both its ends, on the plate and on the panel (practice after ANSI/TIA-606). */
const LABELS_PER_CABLE = 4;

/**
 * How many of each part the job takes. What hangs on the way of a cable (cable, supports, holes) counts runs that
 * have one; what hangs on the jack (jacks, plate, mounting, labels, cords, panel port) counts every run.
 */
export function quantities(
  plan: Plan,
  runs: readonly Run[],
  ways: readonly Way[],
  boxPlan: BoxPlan,
): Quantities {
  const raceway = racewayLength(runs, ways);
  return {
    cableBox: boxesToBuy(plan, runs, boxPlan),
    jack: 2 * runs.length,
    label: LABELS_PER_CABLE * runs.length,
    support: Math.ceil(supportedLength(plan, ways, raceway) / SUPPORT_SPACING),
    ...wayParts(plan, raceway),
    ...outletParts(plan, runs),
    ...cords(plan, runs),
    ...panels(prices(plan), runs),
    ...holeParts(plan, runs),
  };
}

/** Tray, conduit and raceway come in lengths of 10 ft: common practice. */
const STOCK_LENGTH = 10 * FOOT;

/** Which stock a drawn pathway is made of; hook lines are supports, and a sleeve is priced with its hole. */
const STOCK: Readonly<
  Record<Pathway['kind'], 'trayLength' | 'conduitLength' | 'racewayLength' | null>
> = {
  'hook-line': null,
  tray: 'trayLength',
  conduit: 'conduitLength',
  raceway: 'racewayLength',
  sleeve: null,
  'under-slab': 'conduitLength',
};

/**
 * Lengths of tray, conduit and raceway: each drawn pathway that is not there already, in whole lengths of its own,
 * and raceway for the cables that follow closed ceilings without a drawn pathway.
 */
function wayParts(plan: Plan, raceway: number) {
  const parts = {
    trayLength: 0,
    conduitLength: 0,
    racewayLength: Math.ceil(raceway / STOCK_LENGTH),
  };
  for (const pathway of plan.tables.pathways.values()) {
    const stock = pathway.existing ? null : STOCK[pathway.kind];
    if (stock) parts[stock] += Math.ceil(chainLength(pathway.points) / STOCK_LENGTH);
  }
  return parts;
}

/** Boxes of the box plan, and for a run that no box holds the boxes' worth of cable that it takes from a reel. */
function boxesToBuy(plan: Plan, runs: readonly Run[], boxPlan: BoxPlan): number {
  const size = settings(plan).boxLength;
  const oversize = new Set(boxPlan.oversize);
  return runs
    .filter((run) => oversize.has(run.jack))
    .reduce((sum, run) => sum + Math.ceil(run.order / size), boxPlan.boxes.length);
}

function outletParts(plan: Plan, runs: readonly Run[]) {
  const used = [...new Set(runs.map((run) => run.outlet))]
    .map((id) => plan.tables.outlets.get(id))
    .filter((outlet) => outlet !== undefined);
  const count = (...mounts: Outlet['mount'][]) =>
    used.filter((outlet) => mounts.includes(outlet.mount)).length;
  return {
    plate: count('wall', 'casework', 'floor'),
    bracket: count('wall', 'casework'),
    ceilingBox: count('ceiling'),
    floorBox: count('floor'),
    pole: count('pole'),
  };
}

/** A cord at each end of every cable in service, and one for each device that shares another's jack. */
function cords(plan: Plan, runs: readonly Run[]) {
  const inService = runs.filter((run) => run.device !== null).length;
  const served = new Set<Id | null>();
  for (const jack of plan.tables.jacks.values()) served.add(jack.device);
  let sharing = 0;
  for (const { host } of plan.tables.devices.values())
    if (host !== null && served.has(host)) sharing++;
  return { deviceCord: inService + sharing, closetCord: inService };
}

function panels(book: Prices, runs: readonly Run[]) {
  const homed = runs.filter((run) => run.closet !== null);
  const each = [...groupBy(homed, (run) => run.closet).values()].map((group) =>
    panelsFor(group.length, book),
  );
  return {
    panel24: each.reduce((sum, choice) => sum + choice.panel24, 0),
    panel48: each.reduce((sum, choice) => sum + choice.panel48, 0),
  };
}

/**
 * The panels of 24 and 48 ports that hold so many runs with a quarter to spare for the least cost; where two choices
 * cost the same, the one with fewer panels.
 */
export function panelsFor(
  runs: number,
  book: Pick<Prices, 'panel24' | 'panel48'>,
): { panel24: number; panel48: number } {
  const ports = Math.ceil((runs * (100 + SPARE_PORTS_PERCENT)) / 100);
  const most = Math.ceil(ports / 48);
  // From the most large panels down, so that an equal cost keeps the fewer panels.
  const choices = Array.from({ length: most + 1 }, (_, i) => most - i).map((panel48) => ({
    panel48,
    panel24: Math.max(0, Math.ceil((ports - 48 * panel48) / 24)),
  }));
  const cost = (choice: { panel24: number; panel48: number }) =>
    choice.panel24 * book.panel24 + choice.panel48 * book.panel48;
  return choices.reduce((best, choice) => (cost(choice) < cost(best) ? choice : best));
}

/**
 * Holes by their work. Where a pathway is there already so is its hole, but it is sealed and firestopped anew. Each
 * riser that carries cables is one core drilled hole, unless it is there already, and one firestop: the plan does not
 * say what its floors are made of and whether they are rated, so the dearer is taken.
 */
function holeParts(plan: Plan, runs: readonly Run[]) {
  const all = holes(runs);
  const made = all.filter(
    ({ crossing }) => !plan.tables.pathways.get(crossing.pathway ?? '')?.existing,
  );
  const risers = [...runsByRiser(runs).keys()];
  const drilled = risers.filter((id) => !plan.tables.risers.get(id)?.existing);
  return {
    sleeve: made.filter((hole) => hole.crossing.work === 'sleeve').length,
    coreDrill: made.filter((hole) => hole.crossing.work === 'core').length + drilled.length,
    seal: all.filter((hole) => hole.crossing.work === 'seal').length,
    firestop: all.filter((hole) => hole.crossing.firestop).length + risers.length,
  };
}
