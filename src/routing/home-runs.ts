import type { Id } from '../base/ids.ts';
import { sortByLabel } from '../base/labels.ts';
import { DEVICE_CORD } from '../kinds/kind.ts';
import { type Allowances, allowancesOf } from '../plan/allowances.ts';
import {
  type Closet,
  type Device,
  type Jack,
  type Level,
  type Outlet,
  type Pin,
  type Plan,
  type Settings,
  settings,
} from '../plan/plan.ts';
import type { Blocked, Pinned, Run, RunPart, Segment, Way } from '../results/types.ts';
import {
  createPlanNetworks,
  type PlanNetwork,
  type PlanNetworks,
  sameList,
} from './plan-networks.ts';
import type { Network } from './router.ts';
import type { NoRoute, Route } from './site.ts';
import { createWays, type Lay } from './ways.ts';

/** Every jack's run, in the order of the jacks, and what lies where. */
export interface HomeRuns {
  readonly runs: readonly Run[];
  readonly ways: readonly Way[];
  /** Levels that are too large for all their lines: runs there hold, but may not be the cheapest. */
  readonly inexact: readonly Id[];
}

/** Routes plans, and keeps what it can use again: rows never change, so equal rows mean equal results. */
export interface Router {
  homeRuns(plan: Plan): HomeRuns;
}

/** The home run of every jack of a plan. Never throws for what a user drew. */
export const homeRuns = (plan: Plan): HomeRuns => createRouter().homeRuns(plan);

/**
 * A router that remembers the graph of each level while its walls, zones, keep-outs, pathways, risers and pins
 * stay the same rows, and each run while its jack, outlet and device do. What it returns never depends on what it
 * remembers.
 */
export function createRouter(): Router {
  const plans = createPlanNetworks();
  const known = new Map<Id, { inputs: readonly unknown[]; routed: Routed }>();
  const lays = createLays();
  const waysOf = createWays();
  let last: { routed: readonly Routed[]; ways: readonly Way[] } | null = null;
  return {
    homeRuns(plan) {
      const networks = plans(plan);
      const s = settings(plan);
      const allowances = [...plan.tables.allowances.values()];
      const routed = [...plan.tables.jacks.values()].map((jack) => {
        const task = taskOf(plan, jack, networks);
        const { outlet, device, level, pin, on, closets, elsewhere } = task;
        const network = on && [on.free, pin && on.pinned()];
        const rows = [jack, outlet, device, level, pin, s, elsewhere, ...(network ?? [])];
        const inputs = [...rows, ...closets, ...allowances];
        const entry = known.get(jack.id);
        if (entry && sameList(entry.inputs, inputs)) return entry.routed;
        const fresh = runOf(s, task, plan);
        known.set(jack.id, { inputs, routed: fresh });
        return fresh;
      });
      for (const id of known.keys()) if (!plan.tables.jacks.has(id)) known.delete(id);
      const ways = last && sameList(last.routed, routed) ? last.ways : waysOf(lays(routed));
      last = { routed, ways };
      return { runs: routed.map((r) => r.run), ways, inexact: networks.inexact() };
    },
  };
}

/** A jack with the rows that its run depends on. */
interface Task {
  readonly jack: Jack;
  readonly outlet: Outlet | null;
  readonly device: Device | null;
  readonly level: Level | null;
  readonly pin: Pin | null;
  /** The networks that its level is part of; null where it can go to no closet there. */
  readonly on: PlanNetwork | null;
  /** Closets on those levels that it may go to. */
  readonly closets: readonly Closet[];
  /** Whether what it may go to stands only where no riser leads. */
  readonly elsewhere: boolean;
}

interface Routed {
  readonly run: Run;
  readonly route: Route | null;
}

function taskOf(plan: Plan, jack: Jack, networks: PlanNetworks): Task {
  const { tables } = plan;
  const outlet = tables.outlets.get(jack.outlet) ?? null;
  const level = (outlet && tables.levels.get(outlet.level)) ?? null;
  const chosen = jack.closet === null ? null : tables.closets.get(jack.closet);
  const all = chosen ? [chosen] : [...tables.closets.values()];
  const levels = level ? networks.joined(level.id) : [];
  const closets = all.filter((c) => levels.includes(c.level));
  return {
    jack,
    outlet,
    device: (jack.device === null ? null : tables.devices.get(jack.device)) ?? null,
    level,
    pin: (jack.pin === null ? null : tables.pins.get(jack.pin)) ?? null,
    on: level && closets.length > 0 ? networks.at(level.id) : null,
    closets,
    elsewhere: closets.length === 0 && all.length > 0,
  };
}

function runOf(s: Settings, task: Task, plan: Plan): Routed {
  const { outlet, level, on, pin } = task;
  if (!outlet || !level || !on) {
    const reason = task.elsewhere ? 'other-level' : 'no-closet';
    return { run: blockedRun(s, task, { reason, by: null, reached: null }), route: null };
  }
  const found = pin ? byPin(task, on, pin, outlet) : shortest(task.closets, on.free, outlet);
  if (!found.ok) return { run: blockedRun(s, task, blockedBy(found)), route: null };
  const free = pin ? on.free.route(outlet, plan.tables.closets.get(found.closet)!) : null;
  const pinned =
    pin && free?.ok
      ? { pin: pin.id, cost: found.cost - free.cost, path: found.path - free.path }
      : null;
  return { run: routedRun(s, task, found, pinned, plan), route: found };
}

/** The way to the closet that takes the least cable, or what bars the way to the first. */
function shortest(
  closets: readonly Closet[],
  network: Network,
  outlet: Outlet,
  pin?: Pin,
): Route | NoRoute {
  let best: Route | null = null;
  let bar: NoRoute | null = null;
  for (const closet of closets) {
    const found = network.route(outlet, closet, pin);
    if (found.ok) {
      if (!best || found.path < best.path) best = found;
    } else bar ??= found;
  }
  return best ?? bar!;
}

function byPin(task: Task, on: PlanNetwork, pin: Pin, outlet: Outlet): Route | NoRoute {
  if (on.levels.includes(pin.level)) return shortest(task.closets, on.pinned(), outlet, pin);
  const free = shortest(task.closets, on.free, outlet);
  return free.ok ? { ok: false, reason: 'pin', by: null, reached: null } : free;
}

const blockedBy = ({ reason, by, reached }: NoRoute): Blocked => ({
  reason: reason === 'no-riser' ? 'other-level' : reason,
  by,
  reached,
});

const cordOf = (task: Task): number => task.device?.cord ?? DEVICE_CORD;

/** What a run is before it has a way. Spread last: spread first, it would give each run its own shape, see `trackBetween`. */
function blank(s: Settings, task: Task) {
  const cord = cordOf(task);
  const { jack, outlet } = task;
  return {
    jack: jack.id,
    label: jack.label,
    outlet: jack.outlet,
    device: jack.device,
    level: outlet?.level ?? '',
    limit: Math.max(0, Math.min(s.linkLimit, s.channelLimit - cord - s.cordCloset)),
  };
}

function blockedRun(s: Settings, task: Task, blocked: Blocked): Run {
  const base = blank(s, task);
  return {
    closet: task.jack.closet,
    status: 'unroutable',
    across: 0,
    vertical: 0,
    slack: 0,
    path: 0,
    cable: 0,
    order: 0,
    channel: 0,
    cost: 0,
    parts: [],
    segments: [],
    points: [],
    crossings: [],
    pathways: [],
    bends: 0,
    pinned: null,
    blocked,
    ...base,
  };
}

function routedRun(s: Settings, task: Task, route: Route, pinned: Pinned | null, plan: Plan): Run {
  const base = blank(s, task);
  const allowed = allowancesOf(plan, task.jack);
  const slack = allowed.outletSlack + allowed.fieldLoop + allowed.closetLoop;
  const cable = route.path + slack;
  const { segments } = route;
  const over = cable > base.limit;
  const near = cable * 100 >= base.limit * s.nearPercent;
  return {
    closet: route.closet,
    status: over ? 'over' : near ? 'near' : 'ok',
    across: route.across,
    vertical: route.vertical,
    slack,
    path: route.path,
    cable,
    order: orderLength(cable, allowed),
    channel: cable + cordOf(task) + s.cordCloset,
    cost: route.cost,
    parts: partsOf(segments, allowed),
    segments,
    points: route.points,
    crossings: route.crossings,
    pathways: route.pathways,
    bends: route.bends,
    pinned,
    blocked: null,
    ...base,
  };
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** The open sum: neighbours of the same kind, zone and pathway put together, then the slack. */
function partsOf(segments: readonly Segment[], s: Allowances): RunPart[] {
  const parts: Writable<RunPart>[] = [];
  for (const { kind, length, zone, pathway } of segments) {
    const last = parts[parts.length - 1];
    if (last && last.kind === kind && last.zone === zone && last.pathway === pathway)
      last.length += length;
    else parts.push({ kind, length, zone, pathway });
  }
  const slack = [
    ['outlet-slack', s.outletSlack],
    ['field-loop', s.fieldLoop],
    ['closet-loop', s.closetLoop],
  ] as const;
  for (const [kind, length] of slack)
    if (length > 0) parts.push({ kind, length, zone: null, pathway: null });
  return parts;
}

/** The stretches of every run; those of a route that stands in the same place of the order are the very same. */
function createLays(): (routed: readonly Routed[]) => Lay[] {
  let known = new Map<Routed, { rank: number; lays: readonly Lay[] }>();
  return (routed) => {
    const order = sortByLabel(routed, ({ run }) => run.label);
    const ranks = new Map(order.map((one, rank) => [one, rank]));
    const next: typeof known = new Map();
    for (const one of routed) {
      const rank = ranks.get(one)!;
      const last = known.get(one);
      next.set(one, last?.rank === rank ? last : { rank, lays: laysOf(one, rank) });
    }
    known = next;
    return [...next.values()].flatMap(({ lays }) => lays);
  };
}

function laysOf({ run, route }: Routed, rank: number): Lay[] {
  const { jack } = run;
  return (route?.lies ?? []).flatMap((lie, i) => {
    if (!lie) return [];
    const { level, pathway, from, to } = route!.segments[i]!;
    const { line, span } = lie;
    return [{ line, jack, rank, level, pathway, span, from, to }];
  });
}

/** The cable with its waste, in whole ordering steps, to the nearest mm; a length of whole steps takes no more. */
function orderLength(cable: number, s: Allowances): number {
  const steps = (cable * (100 + s.wastePercent)) / (100 * s.orderStep);
  return Math.round(Math.ceil(steps - 1e-9) * s.orderStep);
}
