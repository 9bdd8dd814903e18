import { renderMessage } from '../../src/base/message.ts';
import { distance } from '../../src/geometry/nearest.ts';
import type { Point } from '../../src/geometry/point.ts';
import { kinds } from '../../src/kinds/index.ts';
import { apply } from '../../src/plan/change.ts';
import type { Command } from '../../src/plan/commands/command.ts';
import { type CommandArgs, type CommandName, commands } from '../../src/plan/commands/index.ts';
import { emptyPlan, jacksOf, type Outlet, type Plan } from '../../src/plan/plan.ts';
import type { At, Box, Site, SiteDevice, Way } from './site.ts';
import { ceilingOf, mm, wallsOf } from './walls.ts';

const LEVEL = 'L1';
const place = (at: At): Point => [mm(at.x), mm(at.y)];
const inches = (value: number): number => Math.round(value * 25.4);
const corners = ({ x, y, w, h }: Box): Point[] => [
  [mm(x), mm(y)],
  [mm(x + w), mm(y)],
  [mm(x + w), mm(y + h)],
  [mm(x), mm(y + h)],
];

/** Draws a site as somebody at the board would: the same commands, one after the other. */
class Drawing {
  plan: Plan = emptyPlan();

  /** Carries a command out and says which row it left selected. */
  run<N extends CommandName>(name: N, args: CommandArgs<N>): string {
    const outcome = (commands[name] as unknown as Command<CommandArgs<N>>)(this.plan, args, {
      kinds,
    });
    if (!outcome.ok) throw new Error(`${name}: ${renderMessage(outcome.why, 'ft')}`);
    this.plan = apply(this.plan, outcome.changes);
    return outcome.select?.[0]?.id ?? '';
  }

  set(table: CommandArgs<'edit'>['table'], id: string, fields: Record<string, unknown>): void {
    this.run('edit', { table, id, fields });
  }
}

function drawRooms(drawing: Drawing, site: Site): void {
  for (const room of site.rooms) {
    const kind = ceilingOf(room);
    // Where the structure is in sight, hooks hang a foot below it.
    const cableElevation = kind === 'open' ? mm(room.ceiling_ft - 1) : null;
    drawing.run('draw-zone', {
      level: LEVEL,
      outline: corners(room),
      look: {
        name: room.name,
        area: room.area,
        ceiling: { kind, height: mm(room.ceiling_ft) },
        cableElevation,
      },
    });
  }
}

function drawPathway(drawing: Drawing, way: Way): void {
  const id = drawing.run('draw-pathway', {
    level: LEVEL,
    kind: way.kind,
    points: way.pts.map(([x, y]) => place({ x, y })),
    elevation: way.elevation_ft === null ? null : mm(way.elevation_ft),
    size: way.size,
  });
  drawing.set('pathways', id, { name: way.name });
}

/** The outlet of a device's first jack. */
function outletOf(plan: Plan, device: string): Outlet {
  const jack = jacksOf(plan, plan.tables.devices.get(device)!)[0]!;
  return plan.tables.outlets.get(jack.outlet)!;
}

function placeDevice(drawing: Drawing, device: SiteDevice): string {
  const id = drawing.run('place-device', {
    level: LEVEL,
    kind: device.kind,
    at: place(device),
    alone: true,
  });
  drawing.set('devices', id, { name: device.name, height: inches(device.h_in) });
  const outlet = outletOf(drawing.plan, id);
  if (device.outlet) {
    const { mount, h_in } = device.outlet;
    const [x, y] = place(device.outlet);
    drawing.run('move', {
      refs: [{ table: 'outlets', id: outlet.id }],
      by: [x - outlet.at[0], y - outlet.at[1]],
    });
    drawing.set('outlets', outlet.id, { mount, height: inches(h_in) });
  } else if (outlet.mount === 'ceiling') {
    drawing.set('outlets', outlet.id, { height: inches(device.h_in), placed: 'auto' });
  }
  for (let cable = 2; cable <= device.cables; cable++) {
    drawing.run('add-jack', { outlet: outlet.id });
  }
  return id;
}

/** How near an existing receptacle serves a further device, and how far it stands from the data outlet. */
const SHARED_POWER = 900;
const BESIDE = 300;

function placePower(drawing: Drawing, device: SiteDevice, id: string): void {
  if (device.unpowered || device.power === 'PoE') return;
  const { at } = drawing.plan.tables.devices.get(id)!;
  const shared = [...drawing.plan.tables.powers.values()].some(
    (power) => distance(power.at, at) <= SHARED_POWER,
  );
  if (shared) return;
  const outlet = outletOf(drawing.plan, id);
  const near = distance(outlet.at, at) <= SHARED_POWER * 2;
  const wall = outlet.wall === null ? null : drawing.plan.tables.walls.get(outlet.wall)!;
  const upright = near && wall !== null && wall.a[0] === wall.b[0];
  const [x, y] = near ? outlet.at : at;
  const power = drawing.run('place-power', {
    level: LEVEL,
    at: upright ? [x, y + BESIDE] : [x + BESIDE, y],
    height: outlet.height,
  });
  drawing.set('powers', power, { name: device.power });
}

/** The plan of a site. */
export function planOf(site: Site): Plan {
  const drawing = new Drawing();
  drawing.set('job', 'job', {
    name: site.name,
    address: site.address,
    client: 'The owner',
    preparedBy: 'Sample job',
    units: 'ft',
  });
  drawing.set('levels', LEVEL, {
    deck: mm(site.deck_ft),
    ceiling: { kind: 'open', height: mm(site.deck_ft) },
  });
  drawRooms(drawing, site);
  for (const { a, b, ...look } of wallsOf(site)) {
    drawing.run('draw-walls', { level: LEVEL, points: [a, b], look });
  }
  for (const { name, clearance_in, ...box } of site.keepouts) {
    drawing.run('draw-keepout', {
      level: LEVEL,
      outline: corners(box),
      name,
      clearance: inches(clearance_in),
    });
  }
  for (const way of site.pathways) drawPathway(drawing, way);
  for (const closet of site.closets) {
    const id = drawing.run('place-closet', { level: LEVEL, at: place(closet) });
    drawing.set('closets', id, {
      name: closet.name,
      height: mm(closet.h_ft),
      ports: closet.ports,
    });
  }
  const ids = site.devices.map((device) => placeDevice(drawing, device));
  for (const spare of site.spares) drawing.run('place-spare', { level: LEVEL, at: place(spare) });
  site.devices.forEach((device, i) => {
    placePower(drawing, device, ids[i]!);
  });
  drawing.run('renumber', {});
  return drawing.plan;
}
