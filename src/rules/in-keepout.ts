import { msg } from '../base/message.ts';
import { distance, nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { deviceName } from '../plan/names.ts';
import { type Keepout, onLevel, type Plan } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** A device or an outlet stands where no cable may go. On the border it stands outside. */
export const inKeepout: Rule = {
  id: 'in-keepout',
  title: msg('A device or an outlet stands in a keep-out'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan, kinds }) =>
    [...plan.tables.keepouts.values()].flatMap((keepout) => remarks(plan, kinds, keepout)),
};

function remarks(plan: Plan, kinds: KindRegistry, keepout: Keepout): Remark[] {
  const { level, outline } = keepout;
  const devices = onLevel(plan, 'devices', level).filter(({ at }) => isWithin(outline, at));
  const outlets = onLevel(plan, 'outlets', level).filter(({ at }) => isWithin(outline, at));
  return [
    ...devices.map((d) => remark(keepout, 'devices', d, deviceName(plan, kinds, d))),
    ...outlets.map((o) => remark(keepout, 'outlets', o, outletName(plan, o.id))),
  ];
}

function remark(
  keepout: Keepout,
  table: 'devices' | 'outlets',
  { id, at }: { readonly id: string; readonly at: Point },
  name: string,
): Remark {
  return {
    subjects: [
      { table, id },
      { table: 'keepouts', id: keepout.id },
    ],
    at: { level: keepout.level, point: at },
    message: msg('{name} stands in the keep-out "{keepout}".', { name, keepout: keepout.name }),
    remedy: msg('Move it out, or make the keep-out smaller. A cable gets in by a pathway only.'),
    fix: null,
  };
}

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
