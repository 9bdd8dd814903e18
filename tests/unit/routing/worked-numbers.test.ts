import { describe, expect, it } from 'vitest';
import type { Route, Site } from '../../../src/routing/index.ts';
import { prepare } from '../../../src/routing/index.ts';
import { POLE, PRICES, room, wall } from './sites.ts';

// The worked numbers of the routing contract, each small enough to add up by hand.

function routed(site: Site): Route {
  const route = prepare(site).route(POLE, 'C1');
  if (!route.ok) throw new Error(`blocked: ${JSON.stringify(route)}`);
  return route;
}

describe('the worked numbers', () => {
  it('1: up 2400, across 9000 and 7000, down 1350 is a path of 19750', () => {
    const route = routed(room());
    expect(route.path).toBe(19_750);
    expect(route.cost).toBe(19_750 + 100);
    expect(route.bends).toBe(1);
    expect(route.segments.map((s) => [s.kind, s.length])).toEqual([
      ['up', 2400],
      ['across', 7000],
      ['across', 9000],
      ['down', 1350],
    ]);
  });

  it('2: a keep-out with its only gap at y = 8500 makes the path 20750', () => {
    const outline = [
      [4000, 0],
      [6000, 0],
      [6000, 8500],
      [4000, 8500],
    ] as const;
    const route = routed(room({ keepouts: [{ id: 'K1', outline, clearance: 0 }] }));
    expect(route.across).toBe(17_000);
    expect(route.path).toBe(20_750);
  });

  it('3: a zone 500 higher adds the step of 500', () => {
    const outline = [
      [6000, 0],
      [12000, 0],
      [12000, 9000],
      [6000, 9000],
    ] as const;
    const high = { id: 'Z1', outline, kind: 'tile', elevation: 3350, height: 3200 } as const;
    const route = routed(room({ zones: [high] }));
    expect(route.segments[0]).toMatchObject({ kind: 'up', length: 2900, zone: 'Z1' });
    expect(route.segments.filter((s) => s.kind === 'step').map((s) => s.length)).toEqual([500]);
    expect(route.path).toBe(20_750);
  });

  const tray = {
    id: 'P1',
    kind: 'tray',
    points: [
      [1000, 8500],
      [10000, 8500],
    ],
    elevation: null,
  } as const;

  it('4: takes the tray at a factor of 0.8, though the path is 1000 longer', () => {
    const route = routed(room({ pathways: [tray] }));
    expect(route.across).toBe(17_000);
    expect(route.path).toBe(20_750);
    expect(route.bends).toBe(2);
    expect(route.cost).toBe(7500 + 7200 + 500 + 200 + 2400 + 1350);
    expect(route.pathways).toEqual(['P1']);
  });

  it('4: takes the free way when the tray is no cheaper', () => {
    const prices = { ...PRICES, pathwayFactor: 100 };
    expect(routed(room({ pathways: [tray], prices })).path).toBe(19_750);
  });

  const across = (end: number) => wall('W1', { a: [6000, 0], b: [6000, end] });

  it('5: goes through a framed wall when the way round its end costs more than the sleeve', () => {
    const route = routed(room({ walls: [across(8600)] }));
    expect(route.path).toBe(19_750);
    expect(route.crossings).toMatchObject([{ wall: 'W1', work: 'sleeve', price: 1000 }]);
  });

  it('5: goes round the end of the wall when that is cheaper', () => {
    const route = routed(room({ walls: [across(8200)] }));
    expect(route.path).toBe(20_250);
    expect(route.crossings).toEqual([]);
  });
});
