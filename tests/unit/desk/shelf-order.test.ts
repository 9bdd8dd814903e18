import { describe, expect, it } from 'vitest';
import { shelfOrder } from '../../../src/desk/shelf-order.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { Site } from './site.ts';

/** A plan with rooms of these names, side by side. */
function named(...names: string[]): Site {
  const site = new Site();
  names.forEach((name, i) => {
    const [x0, x1] = [i * 4000, i * 4000 + 3000];
    const outline = [
      [x0, 0],
      [x1, 0],
      [x1, 3000],
      [x0, 3000],
    ] as const;
    site.run('draw-zone', { level: 'L1', outline, look: { name } });
  });
  return site;
}
const order = ({ plan }: Site): string[] => shelfOrder(plan, kinds).map(({ id }) => id);
const REGISTRY = [...kinds.keys()];

describe('The kinds on the shelf', () => {
  it('stand in the order of the registry in an empty plan and where food is sold, offices or not', () => {
    expect(order(named())).toEqual(REGISTRY);
    expect(order(named('Kitchen', 'Counter', 'Office', 'Staff room', 'Main dining'))).toEqual(
      REGISTRY,
    );
  });

  it('begin with what offices have where most rooms are such, and end with what counters and kitchens have', () => {
    const office = order(named('Office 1', 'Office 2', 'Staff kitchen', 'Break room', 'Hall'));
    expect(office[0]).toBe('time-clock');
    expect(office.slice(0, 4).sort()).toEqual(
      ['access-point', 'office-place', 'phone', 'time-clock'].sort(),
    );
    expect(office.indexOf('kiosk')).toBeGreaterThan(office.indexOf('camera'));
    expect(order(named('Office', 'Manager')).slice(0, 5)).toEqual([
      'office-place',
      'time-clock',
      'phone',
      'access-point',
      'camera',
    ]);
    expect([...office].sort()).toEqual([...REGISTRY].sort());
  });

  it('begin with what is placed most where the rooms have no telling names', () => {
    const site = named('Workshop', 'Room 2');
    for (const [kind, x] of [
      ['access-point', 1000],
      ['office-place', 2000],
      ['office-place', 5000],
    ] as const)
      site.run('place-device', { level: 'L1', kind, at: [x, 1500] });
    const rest = REGISTRY.filter((id) => id !== 'access-point' && id !== 'office-place');
    expect(order(site)).toEqual(['office-place', 'access-point', ...rest]);
  });
});
