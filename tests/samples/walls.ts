import type { Point } from '../../src/geometry/point.ts';
import type { Box, Room, Site } from './site.ts';

export const mm = (feet: number): number => Math.round(feet * 304.8);

/** A wall of a site before it has an id. */
export interface SiteWall {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
  readonly construction: 'framed' | 'masonry' | 'insulated';
  readonly top: 'grid' | 'deck';
  readonly rated: boolean;
  readonly exterior: boolean;
}

type Look = Omit<SiteWall, 'a' | 'b'>;

/** A stretch on a line of the plan: `x` = across, from `from` to `to`, all in feet; null where no wall stands. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly look: Look | null;
  /** Which side is outdoors, so that the inner face of an exterior wall lies on the room's edge. */
  readonly out: -1 | 0 | 1;
}

export const ceilingOf = (room: Room): 'tile' | 'open' | 'hard' => {
  if (room.ceiling.startsWith('lay-in')) return 'tile';
  return /open|exposed/.test(room.ceiling) ? 'open' : 'hard';
};

const holds = (box: Box, x: number, y: number): boolean =>
  x > box.x && x < box.x + box.w && y > box.y && y < box.y + box.h;

const within = (value: number, a: number, b: number): boolean =>
  value >= Math.min(a, b) && value <= Math.max(a, b);

/** What the site says of walls at a place on a line. */
function noteAt(site: Site, upright: boolean, line: number, at: number) {
  return site.walls.find(({ pts: [a, b], column }) => {
    const along = upright ? 1 : 0;
    const across = upright ? 0 : 1;
    return !column && a[across] === line && b[across] === line && within(at, a[along], b[along]);
  });
}

function lookBetween(
  site: Site,
  upright: boolean,
  line: number,
  at: number,
): Pick<Stretch, 'look' | 'out'> {
  const side = (by: number): Room | undefined =>
    site.rooms.find((room) => (upright ? holds(room, line + by, at) : holds(room, at, line + by)));
  const [low, high] = [side(-0.01), side(0.01)];
  const inside = [low, high].filter((room): room is Room => room !== undefined && !room.outdoor);
  if (inside.length === 0) return { look: null, out: 0 };
  if (inside.length === 1) {
    const look: Look = {
      thickness: 204,
      construction: site.exterior,
      top: 'deck',
      rated: false,
      exterior: true,
    };
    return { look, out: inside[0] === low ? 1 : -1 };
  }
  if (low === high) return { look: null, out: 0 };
  const note = noteAt(site, upright, line, at);
  const ids = inside.map((room) => room.id);
  const open = site.open.some((group) => ids.every((id) => group.includes(id)));
  if (open && !note) return { look: null, out: 0 };
  if (ids.some((id) => site.insulated.includes(id))) {
    const look: Look = {
      thickness: 100,
      construction: 'insulated',
      top: 'deck',
      rated: false,
      exterior: false,
    };
    return { look, out: 0 };
  }
  const rated = note?.rated ?? false;
  // Walls beside a room without a ceiling can be seen to the deck; the others stop at the grid.
  const top =
    !note?.extra && (rated || inside.some((room) => ceilingOf(room) === 'open')) ? 'deck' : 'grid';
  const look: Look = {
    thickness: rated ? 150 : 124,
    construction: 'framed',
    top,
    rated,
    exterior: false,
  };
  return { look, out: 0 };
}

/** The stretches of one line, neighbours that look the same put together: one straight wall, never two. */
function stretchesOf(site: Site, upright: boolean, line: number): Stretch[] {
  const cuts = new Set<number>();
  for (const room of site.rooms) {
    const [start, size] = upright ? [room.y, room.h] : [room.x, room.w];
    cuts.add(start).add(start + size);
  }
  for (const { pts } of site.walls) for (const p of pts) cuts.add(upright ? p[1] : p[0]);
  const sorted = [...cuts].sort((a, b) => a - b);
  const merged: Stretch[] = [];
  sorted.slice(1).forEach((to, i) => {
    const from = sorted[i]!;
    const next = { from, to, ...lookBetween(site, upright, line, (from + to) / 2) };
    const last = merged.at(-1);
    const same =
      last && JSON.stringify([last.look, last.out]) === JSON.stringify([next.look, next.out]);
    if (same) merged[merged.length - 1] = { ...last, to };
    else merged.push(next);
  });
  return merged;
}

/** The walls of a site: round the outside, and once between each two rooms that are not open to each other. */
export function wallsOf(site: Site): SiteWall[] {
  const walls: SiteWall[] = [];
  for (const upright of [false, true]) {
    const lines = new Set(
      site.rooms.flatMap((room) =>
        upright ? [room.x, room.x + room.w] : [room.y, room.y + room.h],
      ),
    );
    for (const line of [...lines].sort((a, b) => a - b)) {
      for (const { from, to, look, out } of stretchesOf(site, upright, line)) {
        if (!look) continue;
        const across = mm(line) + (out * look.thickness) / 2;
        // The centrelines of two outer walls meet in the corner.
        const over = look.exterior ? look.thickness / 2 : 0;
        const place = (along: number): Point => (upright ? [across, along] : [along, across]);
        walls.push({ a: place(mm(from) - over), b: place(mm(to) + over), ...look });
      }
    }
  }
  for (const { pts, column } of site.walls) {
    if (!column) continue;
    const [a, b] = pts.map((p): Point => [mm(p[0]), mm(p[1])]) as [Point, Point];
    walls.push({
      a,
      b,
      thickness: 300,
      construction: 'framed',
      top: 'deck',
      rated: false,
      exterior: false,
    });
  }
  return walls;
}
