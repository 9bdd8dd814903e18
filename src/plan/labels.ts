import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { middleOf } from '../geometry/polygon.ts';
import { areaAt } from './areas.ts';
import type { Jack, Plan } from './plan.ts';

/** A label in its parts: `B12-2` is the second jack of device 12 in service area B. */
export interface LabelParts {
  readonly area: string;
  readonly number: number;
  readonly cable: number;
}

/** Reads a label; the schema has checked its form. */
export function labelParts(label: string): LabelParts {
  const [main, cable] = label.slice(1).split('-');
  return {
    area: label.charAt(0),
    number: Number(main),
    cable: cable === undefined ? 1 : Number(cable),
  };
}

/** A label from its parts: the first cable of a number is written without `-1`. */
export const makeLabel = (area: string, number: number, cable = 1): string =>
  `${area}${number}${cable > 1 ? `-${cable}` : ''}`;

/** The highest number of a label, which has room for four digits. */
const MOST_NUMBER = 9999;

/**
 * The number for the next device in an area: one above the highest in use there. Where somebody has given the highest
 * that there is, the lowest that is free; where none is, the highest again, which a check then finds.
 */
export function nextNumber(plan: Plan, area: string): number {
  const taken = new Set<number>();
  for (const jack of plan.tables.jacks.values()) {
    const parts = labelParts(jack.label);
    if (parts.area === area) taken.add(parts.number);
  }
  let next = 0;
  for (const number of taken) next = Math.max(next, number);
  if (next < MOST_NUMBER) return next + 1;
  next = 1;
  while (taken.has(next) && next < MOST_NUMBER) next += 1;
  return next;
}

/** Most cables that one number can carry: a label has room for two digits. */
export const MOST_CABLES = 99;

/** The next cable under a label's number, counting every jack of the plan; above `MOST_CABLES` there is no label. */
export function nextCable(plan: Plan, label: string): number {
  const { area, number } = labelParts(label);
  let top = 0;
  for (const jack of plan.tables.jacks.values()) {
    const parts = labelParts(jack.label);
    if (parts.area === area && parts.number === number) top = Math.max(top, parts.cable);
  }
  return top + 1;
}

/** Jacks that carry one number: those of a device, or a spare by itself. */
interface Numbered {
  readonly level: Id;
  readonly at: Point;
  readonly jacks: readonly Jack[];
}

function numbered(plan: Plan): Numbered[] {
  const groups = groupBy(plan.tables.jacks.values(), (jack) =>
    jack.device === null ? `jack ${jack.id}` : `device ${jack.device}`,
  );
  return [...groups.values()].map((jacks) => {
    const outlet = plan.tables.outlets.get(jacks[0]!.outlet)!;
    const device =
      jacks[0]!.device === null ? undefined : plan.tables.devices.get(jacks[0]!.device);
    const order = [...jacks].sort((a, b) => labelParts(a.label).cable - labelParts(b.label).cable);
    return { level: outlet.level, at: device?.at ?? outlet.at, jacks: order };
  });
}

/**
 * New labels for all jacks: in each service area from 1, clockwise from the north-west round the area's middle, so
 * that somebody who walks along the walls meets them in order.
 */
export function renumbered(plan: Plan): ReadonlyMap<Id, string> {
  const areas = groupBy(numbered(plan), (item) => areaAt(plan, item.level, item.at));
  const labels = new Map<Id, string>();
  for (const [area, items] of areas) {
    const [mx, my] = middleOf(items.map((item) => item.at));
    const bearing = (item: Numbered): number => {
      const angle = Math.atan2(item.at[1] - my, item.at[0] - mx) + (3 * Math.PI) / 4;
      return (angle + 2 * Math.PI) % (2 * Math.PI);
    };
    items.sort((a, b) => bearing(a) - bearing(b) || a.at[1] - b.at[1] || a.at[0] - b.at[0]);
    items.forEach((item, i) => {
      item.jacks.forEach((jack, k) => {
        labels.set(jack.id, makeLabel(area, i + 1, k + 1));
      });
    });
  }
  return labels;
}
