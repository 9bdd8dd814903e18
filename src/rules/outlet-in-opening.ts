import { groupBy } from '../base/group.ts';
import { type Message, msg } from '../base/message.ts';
import { alongOf } from '../plan/openings.ts';
import type { Opening, Outlet, Plan, Wall } from '../plan/plan.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** An outlet was put, by hand or before the opening came, where its wall is a door, a window or open. */
export const outletInOpening: Rule = {
  id: 'outlet-in-opening',
  title: msg('An outlet is where its wall has an opening'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) => {
    const openings = groupBy(plan.tables.openings.values(), ({ wall }) => wall);
    return [...plan.tables.outlets.values()].flatMap((outlet) => {
      const wall = outlet.wall === null ? undefined : plan.tables.walls.get(outlet.wall);
      if (!wall || outlet.mount !== 'wall') return [];
      const opening = openings.get(wall.id)?.find((one) => holds(one, wall, outlet));
      if (!opening) return [];
      return [
        {
          subjects: [
            { table: 'outlets', id: outlet.id },
            { table: 'openings', id: opening.id },
          ],
          at: { level: outlet.level, point: outlet.at },
          message: WORDS[opening.kind](outletName(plan, outlet)),
          remedy: msg('Move the outlet beside it along the wall, or move the opening.'),
          fix: null,
        },
      ];
    });
  },
};

const WORDS: Readonly<Record<Opening['kind'], (name: string) => Message>> = {
  door: (name) => msg('{name} is in a door.', { name }),
  window: (name) => msg('{name} is in a window.', { name }),
  opening: (name) => msg('{name} is in an opening of its wall.', { name }),
};

/** Whether an outlet lies within an opening, along the wall and in height; on its edge it does not. */
function holds(
  { along, width, sill, height }: Opening,
  wall: Wall,
  { at, height: up }: Outlet,
): boolean {
  return Math.abs(alongOf(wall, at) - along) < width / 2 - 1 && up > sill && up < sill + height;
}

function outletName(plan: Plan, { id }: Outlet): string {
  const jack = [...plan.tables.jacks.values()].find((j) => j.outlet === id);
  return jack ? `Jack ${jack.label}` : `Outlet ${id}`;
}
