import type { Point } from '../../src/geometry/point.ts';
import { emptyPlan, makeRow, type Plan } from '../../src/plan/plan.ts';
import { dice } from './dice.ts';

/**
 * A made-up office: rooms in rows along corridors, walls of all kinds, some rooms with another ceiling, shafts to go
 * round, trays in the corridors, outlets on the walls.
 */
export function officePlan(size: { walls: number; jacks: number }): Plan {
  const random = dice(7);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const walls: { a: Point; b: Point; fields: object }[] = [];
  const outlines: { at: Point; w: number; h: number }[] = [];
  const columns = Math.ceil(Math.sqrt(size.walls * 0.75));
  let y = 0;
  const corridors: number[] = [];
  while (walls.length < size.walls) {
    const depth = pick([4200, 4800, 5400]);
    let x = 0;
    for (let i = 0; i < columns && walls.length < size.walls; i++) {
      const width = pick([3000, 3600, 4200, 6000]);
      const top = random() < 0.3 ? 'deck' : 'grid';
      const rated = random() < 0.05;
      const construction = random() < 0.1 ? 'masonry' : 'framed';
      const fields = { top, rated, construction };
      walls.push({ a: [x + width, y], b: [x + width, y + depth], fields });
      walls.push({ a: [x, y], b: [x + width - 900, y], fields: { ...fields, top: 'grid' } });
      outlines.push({ at: [x, y], w: width, h: depth });
      x += width;
    }
    y += depth;
    if (corridors.length === 0 || random() < 0.6) {
      corridors.push(y + 900);
      y += 1800;
    }
  }
  const right = Math.max(...outlines.map((o) => o.at[0] + o.w));
  const plan = emptyPlan();
  const tables = Object.fromEntries(
    Object.entries(plan.tables).map(([k, v]) => [k, new Map(v as ReadonlyMap<string, unknown>)]),
  ) as unknown as Record<string, Map<string, unknown>>;
  const put = (table: Parameters<typeof makeRow>[0], id: string, fields: object) =>
    tables[table]!.set(id, makeRow(table, id, fields as never));
  const level = 'L1';
  put('levels', level, { ceiling: { kind: 'tile', height: 2743 } });
  walls.forEach(({ a, b, fields }, i) => {
    put('walls', `W${i}`, { level, a, b, ...fields });
  });
  outlines.forEach(({ at: [x, z], w, h }, i) => {
    const roll = random();
    const outline = [
      [x, z],
      [x + w, z],
      [x + w, z + h],
      [x, z + h],
    ];
    if (roll < 0.12) {
      const kind = pick(['open', 'hard', 'tile']);
      put('zones', `Z${i}`, {
        level,
        outline,
        ceiling: { kind, height: pick([2438, 2743, 3048]) },
      });
    } else if (roll < 0.2) {
      const shaft = outline.map(([u, v], k) => [
        u! + (k === 0 || k === 3 ? 900 : -900),
        v! + (k < 2 ? 900 : -900),
      ]);
      put('keepouts', `K${i}`, { level, outline: shaft, clearance: 100 });
    }
  });
  corridors.forEach((c, i) => {
    const points = [
      [0, c],
      [right, c],
    ];
    put('pathways', `P${i}`, { level, kind: 'tray', points });
  });
  put('closets', 'C1', { level, at: [Math.round(right / 2), corridors[0]! + 300] });
  for (let i = 0; i < size.jacks; i++) {
    const index = Math.floor(random() * walls.length);
    const { a, b } = walls[index]!;
    const k = 0.1 + 0.8 * random();
    const off = random() < 0.5 ? -62 : 62;
    const along = a[1] === b[1];
    const at = [
      Math.round(a[0] + k * (b[0] - a[0])) + (along ? 0 : off),
      Math.round(a[1] + k * (b[1] - a[1])) + (along ? off : 0),
    ];
    put('outlets', `O${i}`, { level, at, wall: `W${index}` });
    put('jacks', `J${i}`, { outlet: `O${i}`, label: `A${i + 1}` });
  }
  return { tables: tables as unknown as Plan['tables'] };
}
