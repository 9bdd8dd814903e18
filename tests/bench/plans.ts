import { readFileSync } from 'node:fs';
import type { Point } from '../../src/geometry/point.ts';
import { kinds } from '../../src/kinds/index.ts';
import { readPlan } from '../../src/plan/codec.ts';
import { emptyPlan, makeRow, type Plan } from '../../src/plan/plan.ts';
import { dice } from './dice.ts';

/** The sample that comes with the project. */
export function samplePlan(): Plan {
  const file = new URL('../../public/samples/restaurant.json', import.meta.url);
  const read = readPlan(readFileSync(file, 'utf8'), new Set(kinds.keys()));
  if (!read.ok) throw new Error(read.issues[0]?.message);
  return read.value.plan;
}

/** Clearance round each keep-out of a hall, mm. */
export const CLEARANCE = 100;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/**
 * A hall under one ceiling: keep-outs of 0.5 to 3.5 m a side that stand apart, walls of 2 to 6 m up to the deck, jacks
 * on poles all over it and one closet near its middle.
 */
export function hallPlan(size: { keepouts: number; walls: number; jacks: number }): Plan {
  const random = dice(11);
  const side = 6000 * Math.ceil(Math.sqrt(size.keepouts + size.walls));
  const upTo = (n: number): number => Math.floor(n * random());
  const boxes: Box[] = [];
  while (boxes.length < size.keepouts) {
    const box = { x: upTo(side), y: upTo(side), w: 500 + upTo(3000), h: 500 + upTo(3000) };
    if (!boxes.some((other) => near(box, other, 3 * CLEARANCE))) boxes.push(box);
  }
  const free = (): Point => {
    for (;;) {
      const at = { x: upTo(side), y: upTo(side), w: 0, h: 0 };
      if (!boxes.some((box) => near(at, box, CLEARANCE + 10))) return [at.x, at.y];
    }
  };
  const plan = emptyPlan();
  const level = [...plan.tables.levels.keys()][0]!;
  const tables = copied(plan);
  boxes.forEach(({ x, y, w, h }, i) => {
    const outline: Point[] = [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ];
    tables.put('keepouts', `K${i}`, { level, outline, clearance: CLEARANCE });
  });
  for (let i = 0; i < size.walls; i++) {
    const a: Point = [upTo(side), upTo(side)];
    const length = 2000 + upTo(4000);
    const b: Point = i % 2 ? [a[0] + length, a[1]] : [a[0], a[1] + length];
    tables.put('walls', `W${i}`, { level, a, b, top: 'deck' });
  }
  tables.put('closets', 'C1', { level, at: free() });
  for (let i = 0; i < size.jacks; i++) {
    tables.put('outlets', `O${i}`, { level, at: free(), mount: 'pole' });
    tables.put('jacks', `J${i}`, { outlet: `O${i}`, label: `A${i + 1}` });
  }
  return tables.plan();
}

const near = (a: Box, b: Box, gap: number): boolean =>
  a.x < b.x + b.w + gap && b.x < a.x + a.w + gap && a.y < b.y + b.h + gap && b.y < a.y + a.h + gap;

/** A copy of a plan's tables, to be filled. */
function copied(plan: Plan) {
  const tables = Object.fromEntries(
    Object.entries(plan.tables).map(([name, rows]) => [name, new Map<string, unknown>(rows)]),
  ) as Record<keyof Plan['tables'], Map<string, unknown>>;
  return {
    put: (table: Parameters<typeof makeRow>[0], id: string, fields: object): void => {
      tables[table].set(id, makeRow(table, id, fields as never));
    },
    plan: (): Plan => ({ tables: tables as unknown as Plan['tables'] }),
  };
}

/** A plan as a drag of its first outlet, or closet, shows it: one step of 100 mm after another, to and fro. */
export function dragged(plan: Plan, table: 'outlets' | 'closets'): () => Plan {
  const steps = [0, 100, 200, 300, 200, 100].map((by) => {
    const [id, row] = [...plan.tables[table]][0]!;
    const moved = { ...row, at: [row.at[0] + by, row.at[1]] as const };
    const rows = new Map<string, unknown>(plan.tables[table]).set(id, moved);
    return { tables: { ...plan.tables, [table]: rows } } as Plan;
  });
  let turn = 0;
  return () => steps[turn++ % steps.length]!;
}
