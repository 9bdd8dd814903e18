import type { Id } from '../base/ids.ts';
import { compareLabels } from '../base/labels.ts';
import { DEVICE_CORD } from '../kinds/kind.ts';
import { type Allowances, allowancesOf } from '../plan/allowances.ts';
import {
  type Closet,
  type Device,
  type Jack,
  type Level,
  type Outlet,
  type Plan,
  type Settings,
  settings,
} from '../plan/plan.ts';
import type { Blocked, Crossing, Place, Run, RunPart, Segment, Way } from '../results/types.ts';
import { siteInputs, siteOf } from './plan-site.ts';
import { type Network, prepare } from './router.ts';
import type { NoRoute, Route, SitePlace } from './site.ts';
import { type Lay, waysOf } from './ways.ts';

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
 * A router that remembers the graph of each level while its walls, zones, keep-outs, pathways and closets stay the
 * same rows, and each run while its jack, outlet and device do. What it returns never depends on what it remembers.
 */
export function createRouter(): Router {
  const networks = new Map<Id, { inputs: readonly unknown[]; network: Network }>();
  const known = new Map<Id, { inputs: readonly unknown[]; routed: Routed }>();
  let last: { routed: readonly Routed[]; ways: readonly Way[] } | null = null;

  const networkOf = (plan: Plan, level: Level): Network => {
    const inputs = siteInputs(plan, level.id);
    const entry = networks.get(level.id);
    if (entry && same(entry.inputs, inputs)) return entry.network;
    const network = prepare(siteOf(plan, level));
    networks.set(level.id, { inputs, network });
    return network;
  };

  return {
    homeRuns(plan) {
      const levels = new Map<Id, Network>();
      const at = (level: Level): Network => {
        const network = levels.get(level.id) ?? networkOf(plan, level);
        levels.set(level.id, network);
        return network;
      };
      const routed = [...plan.tables.jacks.values()].map((jack) => {
        const task = taskOf(plan, jack);
        const network = task.level && task.closets.length ? at(task.level) : null;
        const { outlet, device, level, closets, elsewhere } = task;
        const s = settings(plan);
        const allowances = plan.tables.allowances.values();
        const rows = [jack, outlet, device, level, network, s, elsewhere];
        const inputs = [...rows, ...closets, ...allowances];
        const entry = known.get(jack.id);
        if (entry && same(entry.inputs, inputs)) return entry.routed;
        const fresh = runOf(s, task, network, plan);
        known.set(jack.id, { inputs, routed: fresh });
        return fresh;
      });
      for (const id of known.keys()) if (!plan.tables.jacks.has(id)) known.delete(id);
      for (const id of networks.keys()) if (!plan.tables.levels.has(id)) networks.delete(id);
      const ways = last && same(last.routed, routed) ? last.ways : waysOf(laysOf(routed));
      last = { routed, ways };
      const inexact = [...levels].filter(([, n]) => !n.exact).map(([id]) => id);
      return { runs: routed.map((r) => r.run), ways, inexact };
    },
  };
}

const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

/** A jack with the rows that its run depends on. */
interface Task {
  readonly jack: Jack;
  readonly outlet: Outlet | null;
  readonly device: Device | null;
  readonly level: Level | null;
  /** Closets on its level that it may go to. */
  readonly closets: readonly Closet[];
  /** Whether what it may go to stands on other levels only. */
  readonly elsewhere: boolean;
}

interface Routed {
  readonly run: Run;
  readonly route: Route | null;
}

function taskOf(plan: Plan, jack: Jack): Task {
  const outlet = plan.tables.outlets.get(jack.outlet) ?? null;
  const level = (outlet && plan.tables.levels.get(outlet.level)) ?? null;
  const chosen = jack.closet === null ? null : plan.tables.closets.get(jack.closet);
  const all = chosen ? [chosen] : [...plan.tables.closets.values()];
  const closets = all.filter((c) => c.level === level?.id);
  return {
    jack,
    outlet,
    device: (jack.device === null ? null : plan.tables.devices.get(jack.device)) ?? null,
    level,
    closets,
    elsewhere: closets.length === 0 && all.length > 0,
  };
}

function runOf(s: Settings, task: Task, network: Network | null, plan: Plan): Routed {
  const { outlet, level } = task;
  if (!outlet || !level || !network) {
    const reason = task.elsewhere ? 'other-level' : 'no-closet';
    return { run: blockedRun(s, task, { reason, by: null, reached: null }), route: null };
  }
  let best: Route | null = null;
  let bar: NoRoute | null = null;
  for (const closet of task.closets) {
    const found = network.route(outlet, closet.id);
    if (found.ok) {
      if (!best || found.path < best.path) best = found;
    } else bar ??= found;
  }
  if (best) return { run: routedRun(s, task, best, level, plan), route: best };
  return { run: blockedRun(s, task, blockedBy(bar!, level)), route: null };
}

const lift = ([x, y, z]: SitePlace, level: Level): Place => [x, y, z + level.elevation];

function blockedBy(bar: NoRoute, level: Level): Blocked {
  return {
    reason: bar.reason,
    by: bar.by,
    reached: bar.reached && lift(bar.reached, level),
  };
}

/** What a run is before it has a way. */
function blank(s: Settings, task: Task) {
  const cord = task.device?.cord ?? DEVICE_CORD;
  const { jack, outlet } = task;
  return {
    jack: jack.id,
    label: jack.label,
    outlet: jack.outlet,
    device: jack.device,
    level: outlet?.level ?? '',
    limit: Math.max(0, Math.min(s.linkLimit, s.channelLimit - cord - s.cordCloset)),
    cord,
  };
}

function blockedRun(s: Settings, task: Task, blocked: Blocked): Run {
  const { cord: _, ...rest } = blank(s, task);
  return {
    ...rest,
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
  };
}

function routedRun(s: Settings, task: Task, route: Route, level: Level, plan: Plan): Run {
  const { cord, ...rest } = blank(s, task);
  const allowed = allowancesOf(plan, task.jack);
  const slack = allowed.outletSlack + allowed.fieldLoop + allowed.closetLoop;
  const cable = route.path + slack;
  const segments = route.segments.map((segment): Segment => {
    const { kind, length, zone, ceiling, pathway } = segment;
    const from = lift(segment.from, level);
    const to = lift(segment.to, level);
    return { kind, level: level.id, from, to, length, zone, ceiling, pathway, riser: null };
  });
  const over = cable > rest.limit;
  const near = cable * 100 >= rest.limit * s.nearPercent;
  return {
    ...rest,
    closet: route.closet,
    status: over ? 'over' : near ? 'near' : 'ok',
    across: route.across,
    vertical: route.vertical,
    slack,
    path: route.path,
    cable,
    order: orderLength(cable, allowed),
    channel: cable + cord + s.cordCloset,
    cost: route.cost,
    parts: partsOf(segments, allowed),
    segments,
    points: route.points.map((p) => lift(p, level)),
    crossings: crossingsOf(route, level, plan),
    pathways: route.pathways,
    bends: route.bends,
    pinned: null,
    blocked: null,
  };
}

function crossingsOf(route: Route, level: Level, plan: Plan): Crossing[] {
  return route.crossings.map((c) => ({
    ...c,
    level: level.id,
    at: lift(c.at, level),
    construction: plan.tables.walls.get(c.wall)!.construction,
  }));
}

/** The open sum: neighbours of the same kind, zone and pathway put together, then the slack. */
function partsOf(segments: readonly Segment[], s: Allowances): RunPart[] {
  const parts: RunPart[] = [];
  for (const { kind, length, zone, pathway } of segments) {
    const last = parts[parts.length - 1];
    if (last && last.kind === kind && last.zone === zone && last.pathway === pathway)
      parts[parts.length - 1] = { ...last, length: last.length + length };
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

function laysOf(routed: readonly Routed[]): Lay[] {
  const order = routed.map((r) => r.run).sort((a, b) => compareLabels(a.label, b.label));
  const rank = new Map(order.map((run, i) => [run.jack, i]));
  return routed.flatMap(({ run, route }) =>
    route === null
      ? []
      : route.segments.flatMap((segment, i): Lay[] => {
          if (segment.kind !== 'across') return [];
          const { from, to } = run.segments[i]!;
          return [
            {
              jack: run.jack,
              rank: rank.get(run.jack)!,
              level: run.level,
              track: segment.track,
              pathway: segment.pathway,
              span: segment.span,
              from,
              to,
            },
          ];
        }),
  );
}

/** The cable with its waste, in whole ordering steps, to the nearest mm; a length of whole steps takes no more. */
function orderLength(cable: number, s: Allowances): number {
  const steps = (cable * (100 + s.wastePercent)) / (100 * s.orderStep);
  return Math.round(Math.ceil(steps - 1e-9) * s.orderStep);
}
