import { kinds } from '../../src/kinds/index.ts';
import { type Device, makeRow, type Plan } from '../../src/plan/plan.ts';
import { officePlan } from './office.ts';

/** What the board is measured with, on one level and all in view. */
export const SIZE = { devices: 2000, walls: 5000, runs: 500 } as const;

/**
 * A made-up office of that size: each run ends at a jack with a device before it, and the other devices stand near
 * those whose jack they share.
 */
export function crowdedPlan(): Plan {
  const plan = officePlan({ walls: SIZE.walls, jacks: SIZE.runs });
  const outlets = [...plan.tables.outlets.values()];
  const jacks = [...plan.tables.jacks.values()];
  const all = [...kinds.values()];
  const devices = new Map<string, Device>();
  for (let i = 0; i < SIZE.devices; i++) {
    const outlet = outlets[i % SIZE.runs]!;
    const wall = plan.tables.walls.get(outlet.wall!)!;
    const along = wall.a[1] === wall.b[1];
    const row = Math.floor(i / SIZE.runs);
    const off = (outlet.at[along ? 1 : 0] > wall.a[along ? 1 : 0] ? 1 : -1) * 450;
    const by = along ? [row * 700 - 1050, off] : [off, row * 700 - 1050];
    const id = `D${i + 1}`;
    devices.set(
      id,
      makeRow('devices', id, {
        level: outlet.level,
        kind: all[i % all.length]!.id,
        at: [outlet.at[0] + by[0]!, outlet.at[1] + by[1]!],
        host: row === 0 ? null : `D${(i % SIZE.runs) + 1}`,
      }),
    );
  }
  // The first one stands apart from the crowd, where a hand finds it.
  const right = Math.max(...[...plan.tables.walls.values()].map(({ b }) => b[0]));
  const first = devices.get('D1')!;
  devices.set('D1', { ...first, at: [right + 8000, first.at[1]] });
  const served = new Map(jacks.map((jack, i) => [jack.id, { ...jack, device: `D${i + 1}` }]));
  return { tables: { ...plan.tables, devices, jacks: served } };
}
