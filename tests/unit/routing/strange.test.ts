import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { prepare, type Route, type Site, type Terminal } from '../../../src/routing/index.ts';
import { oracleCost } from './dense-oracle.ts';
import { PITCH } from './random-sites.ts';

// Routes that surprise and are right; docs/routing.md tells why.

interface Strange {
  readonly site: Site;
  readonly terminal: Terminal;
  readonly expected: {
    readonly cost: number;
    readonly path: number;
    readonly bends: number;
    /** Kind, from, to and length; stretches that go on along one line are put together. */
    readonly segments: readonly (readonly [string, Place, Place, number])[];
    readonly crossings: readonly { wall: string; work: string; price: number }[];
  };
}
type Place = readonly [number, number, number];

const folder = new URL('../../fixtures/routing/', import.meta.url);
const read = (name: string): Strange => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
const hood = read('out-of-the-same-face.json');

function routed(site: Site, terminal: Terminal): Route {
  const route = prepare(site).route(terminal, 'C1');
  if (!route.ok) throw new Error(`no way: ${route.reason}`);
  return route;
}

/** Segments as a fixture has them. */
function stretches({ segments }: Route): Strange['expected']['segments'] {
  const out: [string, Place, Place, number][] = [];
  for (const { kind, from, to, length } of segments) {
    const last = out[out.length - 1];
    const axis = last?.[1][0] === to[0] ? 0 : 1;
    const on = last?.[0] === kind && last[1][axis] === from[axis] && from[axis] === to[axis];
    if (last && on) out[out.length - 1] = [kind, last[1], to, last[3] + length];
    else out.push([kind, from, to, length]);
  }
  return out;
}

describe('a strange route', () => {
  it.each(readdirSync(folder))('%s is found as it was worked out by hand', (name) => {
    const { site, terminal, expected } = read(name);
    const route = routed(site, terminal);
    const { cost, path, bends } = route;
    expect({ cost, path, bends }).toEqual({
      cost: expected.cost,
      path: expected.path,
      bends: expected.bends,
    });
    expect(stretches(route)).toEqual(expected.segments);
    expect(route.crossings).toMatchObject(expected.crossings);
    expect(route.crossings).toHaveLength(expected.crossings.length);
  });

  it.each(readdirSync(folder))('%s adds up, and costs what a dense grid search finds', (name) => {
    const { site, terminal, expected } = read(name);
    const { segments, crossings, bends, path, cost } = expected;
    const lengths = segments.reduce((sum, [, , , length]) => sum + length, 0);
    const walls = crossings.reduce((sum, { price }) => sum + price, 0);
    expect([lengths, lengths + walls + bends * site.prices.bend]).toEqual([path, cost]);
    expect(oracleCost(site, terminal, 'C1', PITCH)).toBe(cost);
  });

  it('stays in the room where the clearance leaves the face of the wall free', () => {
    const [first, ...others] = hood.site.keepouts;
    const outline = first!.outline.map(([x, y]) => [x, Math.min(y, 2800)] as const);
    const route = routed(
      { ...hood.site, keepouts: [{ ...first!, outline }, ...others] },
      hood.terminal,
    );
    // Between the hood's clearance, which ends at 2900, and the face at 3000.
    expect(route.path).toBe(2400 + 1900 + 4000 + 1400 + 1350);
    expect(route.cost).toBe(route.path + 200);
    expect(route.crossings).toEqual([]);
  });

  it('is no way where the clearance goes all through the wall', () => {
    const [first, ...others] = hood.site.keepouts;
    const site = { ...hood.site, keepouts: [{ ...first!, clearance: 200 }, ...others] };
    expect(prepare(site).route(hood.terminal, 'C1')).toMatchObject({
      ok: false,
      reason: 'no-way',
      by: { table: 'keepouts', id: 'hood' },
    });
  });

  it('costs one passage too with a shorter stay in the wall, and two bends more', () => {
    const pin = {
      level: 'L1',
      points: [
        [4500, 3000],
        [1500, 3000],
      ],
    } as const;
    const route = prepare(hood.site, [pin]).route(hood.terminal, 'C1', pin);
    if (!route.ok) throw new Error('no way by the pin');
    expect(route.path).toBe(hood.expected.path);
    expect(route.bends).toBe(hood.expected.bends + 2);
    expect(route.cost).toBe(hood.expected.cost + 200);
  });
});
