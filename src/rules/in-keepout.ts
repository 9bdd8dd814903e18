import { msg } from '../base/message.ts';
import { distance, nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { risersOn } from '../plan/levels.ts';
import { closetName, deviceName, passName } from '../plan/names.ts';
import { type Keepout, onLevel, type Plan } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { atStart } from './words.ts';

/** A device, an outlet, a closet or either end of a riser stands where no cable may go. On the border it stands outside. */
export const inKeepout: Rule = {
  id: 'in-keepout',
  title: msg('A device, an outlet, a closet or a riser stands in a keep-out'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan, kinds }) =>
    [...plan.tables.keepouts.values()].flatMap((keepout) => remarks(plan, kinds, keepout)),
};

function remarks(plan: Plan, kinds: KindRegistry, keepout: Keepout): Remark[] {
  const { level, outline } = keepout;
  const bounds = boundsOf(outline);
  const inside = <T extends { readonly at: Point }>(rows: readonly T[]): T[] =>
    rows.filter(({ at }) => isBetween(bounds, at) && isWithin(outline, at));
  return [
    ...inside(onLevel(plan, 'devices', level)).map((d) =>
      remark(keepout, 'devices', d, deviceName(plan, kinds, d)),
    ),
    ...inside(onLevel(plan, 'outlets', level)).map((o) =>
      remark(keepout, 'outlets', o, outletName(plan, o.id)),
    ),
    ...inside(onLevel(plan, 'closets', level)).map((c) =>
      remark(keepout, 'closets', c, closetName(plan, c)),
    ),
    ...inside(risersOn(plan, level)).map((r) =>
      remark(keepout, 'risers', r, passName(plan, 'risers', r)),
    ),
  ];
}

function remark(
  keepout: Keepout,
  table: 'devices' | 'outlets' | 'closets' | 'risers',
  { id, at }: { readonly id: string; readonly at: Point },
  name: string,
): Remark {
  return {
    subjects: [
      { table, id },
      { table: 'keepouts', id: keepout.id },
    ],
    at: { level: keepout.level, point: at },
    message: msg('{name} stands in the keep-out "{keepout}".', {
      name: atStart(name),
      keepout: keepout.name,
    }),
    remedy: msg('Move it out, or make the keep-out smaller. A cable gets in by a pathway only.'),
    fix: null,
  };
}

type Bounds = readonly [Point, Point];

/** The corners of the upright rectangle about an outline. */
function boundsOf(outline: readonly Point[]): Bounds {
  let [[left, top], [right, bottom]] = [outline[0]!, outline[0]!];
  for (const [x, y] of outline) {
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
  }
  return [
    [left, top],
    [right, bottom],
  ];
}

const isBetween = ([least, most]: Bounds, [x, y]: Point): boolean =>
  x > least[0] && x < most[0] && y > least[1] && y < most[1];

function isWithin(outline: readonly Point[], at: Point): boolean {
  if (!insidePolygon(outline, at[0], at[1])) return false;
  return outline.every((corner, i) => {
    const next = outline[(i + 1) % outline.length]!;
    return distance(nearestOnSegment(corner, next, at), at) > 0;
  });
}

function outletName(plan: Plan, id: string): string {
  const jack = [...plan.tables.jacks.values()].find((j) => j.outlet === id);
  return jack ? `Jack ${jack.label}` : `Outlet ${id}`;
}
