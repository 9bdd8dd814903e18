import { Draft } from '../../../src/plan/change.ts';
import { type Entity, emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';
import type { TableName } from '../../../src/plan/schema.ts';
import type { Crossing, Place, Run, Segment, Way } from '../../../src/results/types.ts';

/** A run of the length asked for, with everything else plain; lengths in mm. */
export function makeRun(fields: Partial<Run> & Pick<Run, 'label'>): Run {
  const cable = fields.cable ?? 20_000;
  return {
    jack: `J-${fields.label}`,
    outlet: `O-${fields.label}`,
    device: `D-${fields.label}`,
    closet: 'C1',
    level: 'L1',
    status: 'ok',
    across: cable,
    vertical: 0,
    slack: 0,
    path: cable,
    cable,
    order: cable,
    channel: cable + 3048,
    limit: 90_000,
    cost: cable,
    parts: [],
    segments: [],
    points: [],
    crossings: [],
    pathways: [],
    bends: 0,
    pinned: null,
    blocked: null,
    ...fields,
  };
}

/** A run that cannot be routed. */
export const noWay = (fields: Partial<Run> & Pick<Run, 'label'>): Run =>
  makeRun({
    cable: 0,
    channel: 0,
    status: 'unroutable',
    blocked: { reason: 'no-way', by: null, reached: null },
    ...fields,
  });

export const crossing = (fields: Partial<Crossing> = {}): Crossing => ({
  level: 'L1',
  wall: 'W1',
  construction: 'framed',
  at: [1000, 0, 2900],
  work: 'sleeve',
  firestop: false,
  price: 1000,
  pathway: null,
  ...fields,
});

/** A level stretch under a ceiling. */
export const across = (
  from: Place,
  to: Place,
  ceiling: Segment['ceiling'],
  pathway: string | null = null,
): Segment => ({
  kind: 'across',
  level: 'L1',
  from,
  to,
  length: Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]),
  zone: null,
  ceiling,
  pathway,
  riser: null,
  factor: 100,
});

/** A stretch up a riser from one level. */
export const riser = (id: string, from: Place, to: Place, level = 'L1'): Segment => ({
  kind: 'riser',
  level,
  from,
  to,
  length: Math.abs(to[2] - from[2]),
  zone: null,
  ceiling: null,
  pathway: null,
  riser: id,
  factor: 100,
});

export const way = (
  from: Place,
  to: Place,
  jacks: string[],
  pathway: string | null = null,
): Way => ({
  level: 'L1',
  from,
  to,
  pathway,
  jacks,
});

/** Rows to put into an empty plan, by table; each with its id and the fields that matter. */
export type Rows = { readonly [T in TableName]?: Readonly<Record<string, object>> };

/** An empty plan with these rows added or, for rows that are there, changed. */
export function planWith(rows: Rows): Plan {
  const draft = new Draft(emptyPlan());
  for (const [table, byId] of Object.entries(rows) as [TableName, Record<string, object>][])
    for (const [id, fields] of Object.entries(byId)) {
      const { id: _, ...before } = draft.plan.tables[table].get(id) ?? { id };
      draft.put(table, makeRow(table, id, { ...before, ...fields } as never) as Entity<TableName>);
    }
  return draft.plan;
}
