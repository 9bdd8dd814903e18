import { describe, expect, it } from 'vitest';
import { FAR } from '../../../src/base/units.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { step as done } from './steps.ts';

/** As when somebody leans on a digit: far beyond what a plan can hold, and beyond whole numbers. */
const PLACES: readonly Point[] = [
  [FAR + 1, 0],
  [0, -3e22],
];

/** A room with a device in it and a second level over it. */
const level = 'L1';
const plan = (() => {
  const room = done(emptyPlan(), 'draw-zone', {
    level,
    outline: [
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [0, 3000],
    ],
  });
  const walls = done(room, 'draw-walls', {
    level,
    points: [
      [0, 0],
      [4000, 0],
    ],
  });
  const desk = done(walls, 'place-device', { level, kind: 'order-station', at: [2000, 1000] });
  return done(desk, 'add-level', { from: level, side: 'above' });
})();

describe('a place beyond what a plan can hold', () => {
  const near: Point = [500, 500];
  const refs = [{ table: 'devices', id: 'D1' }] as const;
  const wall = { table: 'walls', id: 'W1' } as const;
  it.each([
    ['draw-walls', (at: Point) => ({ level, points: [near, at] })],
    ['draw-zone', (at: Point) => ({ level, outline: [near, [900, 500], at] })],
    ['draw-keepout', (at: Point) => ({ level, outline: [near, [900, 500], at] })],
    ['draw-pathway', (at: Point) => ({ level, kind: 'tray', points: [near, at] })],
    ['draw-dimension', (at: Point) => ({ level, a: near, b: at })],
    ['place-note', (at: Point) => ({ level, at, text: 'Here' })],
    ['place-device', (at: Point) => ({ level, kind: 'phone', at })],
    ['place-closet', (at: Point) => ({ level, at })],
    ['place-power', (at: Point) => ({ level, at })],
    ['place-spare', (at: Point) => ({ level, at })],
    ['place-riser', (at: Point) => ({ level, at })],
    ['pin-runs', (at: Point) => ({ level, points: [at], jacks: ['J1'] })],
    ['move', (by: Point) => ({ refs, by })],
    ['move-point', (to: Point) => ({ ref: wall, index: 1, to })],
    ['duplicate', (by: Point) => ({ refs, by })],
    ['repeat-along', (b: Point) => ({ refs, a: near, b, step: 3e21 })],
    ['fill-room', (at: Point) => ({ level, at })],
  ] as const)('is refused in words by %s', (name, args) => {
    for (const place of PLACES) {
      const command = commands[name] as (...all: readonly unknown[]) => { ok: boolean };
      expect(command(plan, args(place), { kinds })).toMatchObject({
        ok: false,
        why: { text: expect.stringMatching(/\w/) },
      });
    }
  });
});
