import Flatbush from 'flatbush';
import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { isInHand } from './change.ts';
import { onLevel, type Plan, type Wall } from './plan.ts';

/** The walls of a level by their place. */
interface WallIndex {
  readonly walls: readonly Wall[];
  readonly boxes: Flatbush | null;
}

/** Tables never change once they are in a plan, so that what was found out of one holds for as long as it is there. */
const kept = new WeakMap<Plan['tables']['walls'], Map<Id, WallIndex>>();

/**
 * Walls on a level that may reach within a distance of a place, in the order of their ids; all of them while a command
 * is at work on walls. While something is dragged this is asked in every frame.
 */
export function wallsNear(plan: Plan, level: Id, [x, y]: Point, reach: number): readonly Wall[] {
  const { walls: table } = plan.tables;
  if (isInHand(table)) return onLevel(plan, 'walls', level);
  let levels = kept.get(table);
  if (!levels) {
    levels = new Map();
    kept.set(table, levels);
  }
  let index = levels.get(level);
  if (!index) {
    const walls = onLevel(plan, 'walls', level);
    index = { walls, boxes: boxesOf(walls) };
    levels.set(level, index);
  }
  const { walls, boxes } = index;
  const found = boxes?.search(x - reach, y - reach, x + reach, y + reach) ?? [];
  return found.sort((a, b) => a - b).map((i) => walls[i]!);
}

/** Boxes of walls, grown by all of their thickness, which is more than any of their corners lies off the middle line. */
function boxesOf(walls: readonly Wall[]): Flatbush | null {
  if (walls.length === 0) return null;
  const boxes = new Flatbush(walls.length);
  for (const { a, b, thickness: t } of walls)
    boxes.add(
      Math.min(a[0], b[0]) - t,
      Math.min(a[1], b[1]) - t,
      Math.max(a[0], b[0]) + t,
      Math.max(a[1], b[1]) + t,
    );
  boxes.finish();
  return boxes;
}
