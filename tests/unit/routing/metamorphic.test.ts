import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import {
  type NoRoute,
  prepare,
  type Route,
  type Site,
  type Terminal,
} from '../../../src/routing/index.ts';
import { siteAndTerminal } from './random-sites.ts';

// Many sites each; how long that takes is no matter.
vi.setConfig({ testTimeout: 120_000 });

interface Task {
  readonly site: Site;
  readonly terminal: Terminal;
}

const route = ({ site, terminal }: Task): Route | NoRoute => prepare(site).route(terminal, 'C1');

/** What must not change when a site is looked at from elsewhere. */
function measure(task: Task) {
  const found = route(task);
  if (!found.ok) return { ok: false, reason: found.reason };
  const { cost, bends, path, across, vertical } = found;
  return { ok: true, cost, bends, path, across, vertical };
}

/** The same site with every place moved. */
const moved =
  (move: (p: Point) => Point, frameAngle = 0) =>
  ({ site, terminal }: Task): Task => ({
    site: {
      ...site,
      frameAngle,
      zones: site.zones.map((z) => ({ ...z, outline: z.outline.map(move) })),
      walls: site.walls.map((w) => ({ ...w, a: move(w.a), b: move(w.b) })),
      keepouts: site.keepouts.map((k) => ({ ...k, outline: k.outline.map(move) })),
      pathways: site.pathways.map((p) => ({ ...p, points: p.points.map(move) })),
      closets: site.closets.map((c) => ({ ...c, at: move(c.at) })),
    },
    terminal: { ...terminal, at: move(terminal.at) },
  });

const unchangedBy = (change: (task: Task) => Task) =>
  fc.assert(
    fc.property(siteAndTerminal, (task) => {
      expect(measure(change(task))).toEqual(measure(task));
    }),
    { numRuns: 60, seed: 11 },
  );

describe('the length of a run does not depend on', () => {
  it('which way the site is turned', () => {
    unchangedBy(moved(([x, y]) => [-y, x]));
  });

  it('which way it is turned, when the frame turns with it', () => {
    unchangedBy(moved(([x, y]) => [-y, x], 90));
  });

  it('whether it is seen in a mirror', () => {
    unchangedBy(moved(([x, y]) => [-x, y]));
  });

  it('where its origin lies', () => {
    unchangedBy(moved(([x, y]) => [x + 10_000_000, y - 10_000_000]));
  });

  it('the order of walls, keep-outs and pathways', () => {
    unchangedBy(({ site, terminal }) => ({
      site: {
        ...site,
        walls: [...site.walls].reverse(),
        keepouts: [...site.keepouts].reverse(),
        pathways: [...site.pathways].reverse(),
      },
      terminal,
    }));
  });

  it('whether a wall was drawn in one piece or in two that meet', () => {
    unchangedBy(({ site, terminal }) => ({
      site: {
        ...site,
        walls: site.walls.flatMap((w) => {
          const middle: Point = [
            Math.round((w.a[0] * 2 + w.b[0]) / 3),
            Math.round((w.a[1] * 2 + w.b[1]) / 3),
          ];
          return [
            { ...w, b: middle },
            { ...w, id: `${w.id}b`, a: middle },
          ];
        }),
      },
      terminal,
    }));
  });

  it('a wall that nobody crosses', () => {
    unchangedBy(({ site, terminal }) => {
      const extra = { a: [-900, -900], b: [4000, -900], thickness: 150 } as const;
      const wall = { ...extra, construction: 'masonry', top: 'deck', rated: true } as const;
      return {
        site: { ...site, walls: [...site.walls, { ...wall, id: 'W99', exterior: false }] },
        terminal,
      };
    });
  });
});

describe('a route adds up', () => {
  it('to its path: segments end to end, from the outlet to the closet', () => {
    fc.assert(
      fc.property(siteAndTerminal, (task) => {
        const found = route(task);
        if (!found.ok) return;
        const closet = task.site.closets[0]!;
        expect(found.points[0]).toEqual([...task.terminal.at, task.terminal.height]);
        expect(found.points.at(-1)).toEqual([...closet.at, closet.height]);
        let sum = 0;
        found.segments.forEach((s, i) => {
          expect(s.from).toEqual(found.points[i]);
          expect(s.to).toEqual(found.points[i + 1]);
          const [dx, dy, dz] = [0, 1, 2].map((k) => Math.abs(s.to[k]! - s.from[k]!));
          expect(s.length).toBe(dx! + dy! + dz!);
          sum += s.length;
        });
        expect(found.path).toBe(sum);
        expect(found.across + found.vertical).toBe(sum);
      }),
      { numRuns: 150, seed: 13 },
    );
  });
});
