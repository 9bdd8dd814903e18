import type { Id } from '../base/ids.ts';
import { onLevel, type Pin, type Plan, type Riser } from '../plan/plan.ts';
import { buildGraph, type Graph } from './graph.ts';
import { siteInputs, siteOf } from './plan-site.ts';
import { type Network, networkOver, throughOf } from './router.ts';
import type { SiteRiser } from './site.ts';

/** The networks of the levels that risers join to one. */
export interface PlanNetwork {
  readonly levels: readonly Id[];
  readonly free: Network;
  /** With lines through all pins: apart from the free one, so that a pin changes no way but those that pass it. */
  pinned(): Network;
}

/** The networks of one plan, made when they are first asked for. */
export interface PlanNetworks {
  /** The levels that one can come to from a level, itself among them. */
  joined(level: Id): readonly Id[];
  at(level: Id): PlanNetwork;
  /** Levels that were asked about and are too large for all their lines. */
  inexact(): Id[];
}

interface Kept<T> {
  inputs: readonly unknown[];
  value: T;
}

/** Networks of plan after plan: what stands on the same rows as in the plan before is not built again. */
export function createPlanNetworks(): (plan: Plan) => PlanNetworks {
  const graphs = new Map<string, Kept<Graph>>();
  const networks = new Map<string, Kept<Network>>();
  return (plan) => {
    const groups = groupsOf(plan);
    const groupOf = new Map(groups.flatMap((group) => group.levels.map((id) => [id, group])));
    forget(graphs, plan);
    forget(networks, plan);
    for (const { value } of networks.values()) value.keepTo(plan.tables.closets);
    const graphAt = (level: Id, risers: readonly Riser[], pins: readonly Pin[]): Graph => {
      const inputs = [...siteInputs(plan, level), 'risers', ...risers, 'pins', ...pins];
      return keep(graphs, `${level} ${pins.length > 0 ? 'pinned' : ''}`, inputs, () => {
        const site = siteOf(plan, plan.tables.levels.get(level)!);
        return buildGraph(site, throughOf(level, risers.map(siteRiser), pins));
      });
    };
    const networkOf = (group: Group, pinned: boolean): Network => {
      const parts = group.levels.map((level) => {
        const risers = group.risers.filter((r) => r.level === level || r.upper === level);
        return graphAt(level, risers, pinned ? onLevel(plan, 'pins', level) : []);
      });
      const inputs = [...parts, ...group.risers];
      return keep(networks, `${group.levels[0]} ${pinned ? 'pinned' : ''}`, inputs, () =>
        networkOver(parts, group.risers.map(siteRiser)),
      );
    };
    const asked = new Map<Group, PlanNetwork>();
    const ask = (group: Group): PlanNetwork => {
      const free = networkOf(group, false);
      let pinned: Network | null = null;
      return {
        levels: group.levels,
        free,
        pinned: () => {
          pinned ??= networkOf(group, true);
          return pinned;
        },
      };
    };
    return {
      joined: (level) => groupOf.get(level)?.levels ?? [],
      at: (level) => {
        const group = groupOf.get(level)!;
        const known = asked.get(group) ?? ask(group);
        asked.set(group, known);
        return known;
      },
      inexact: () =>
        [...asked].flatMap(([{ levels }, { free }]) => levels.filter((id) => !free.exact(id))),
    };
  };
}

interface Group {
  readonly levels: readonly Id[];
  readonly risers: readonly Riser[];
}

/** Levels that risers join, each group in the order of the table. */
export function groupsOf(plan: Plan): Group[] {
  const { levels, risers } = plan.tables;
  const groups: { levels: Id[]; risers: Riser[] }[] = [];
  const left = new Set(levels.keys());
  for (const start of levels.keys()) {
    if (!left.delete(start)) continue;
    const group = { levels: [start], risers: [] as Riser[] };
    for (const level of group.levels)
      for (const { level: a, upper: b } of risers.values())
        for (const [from, to] of [
          [a, b],
          [b, a],
        ] as const)
          if (from === level && left.delete(to)) group.levels.push(to);
    group.risers.push(
      ...[...risers.values()].filter((r) => r.level !== r.upper && group.levels.includes(r.level)),
    );
    group.levels.sort((p, q) => [...levels.keys()].indexOf(p) - [...levels.keys()].indexOf(q));
    groups.push(group);
  }
  return groups;
}

/** A riser of the plan as the router sees it. */
export const siteRiser = ({ id, level, upper, at }: Riser): SiteRiser => ({
  id,
  levels: [level, upper],
  at,
});

/** Whether two lists hold the same objects in the same order. */
export const sameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

function keep<T>(
  kept: Map<string, Kept<T>>,
  key: string,
  inputs: readonly unknown[],
  make: () => T,
): T {
  const known = kept.get(key);
  if (known && sameList(known.inputs, inputs)) return known.value;
  const value = make();
  kept.set(key, { inputs, value });
  return value;
}

/** Lets go of what belonged to levels that are gone. */
function forget(kept: Map<string, unknown>, plan: Plan): void {
  for (const key of kept.keys()) if (!plan.tables.levels.has(key.split(' ')[0]!)) kept.delete(key);
}
