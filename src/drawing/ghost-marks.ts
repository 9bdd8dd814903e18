import { wallCorners } from '../geometry/nearest.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import type { Mark, Style } from './display.ts';

const WALL: Style = { stroke: 'soft', width: 0.2 };
const ROOM: Style = { stroke: 'soft', width: 0.18, dash: [1.2, 1.2] };

/** The walls and rooms of another level in outline, to draw over: without names, symbols or cables. */
export function ghostMarks(plan: Plan, level: string): Mark[] {
  const rooms = onLevel(plan, 'zones', level).map(
    ({ outline }): Mark => ({ op: 'line', closed: true, points: outline, style: ROOM }),
  );
  const walls = onLevel(plan, 'walls', level).map(
    ({ a, b, thickness }): Mark => ({
      op: 'line',
      closed: true,
      points: wallCorners(a, b, thickness),
      style: WALL,
    }),
  );
  return [...rooms, ...walls];
}
