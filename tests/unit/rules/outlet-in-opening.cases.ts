import { context, type RuleCases } from './case.ts';

/** A wall of 6 m with an opening from 2 to 3 m, and an outlet on its face. */
const rows = (
  opening: { kind: string; sill: number; height: number },
  outlet: { at: [number, number]; height: number; mount?: string; wall?: string | null },
) =>
  context({
    walls: {
      W1: { level: 'L1', a: [0, 0], b: [6000, 0], thickness: 120 },
      W2: { level: 'L1', a: [0, 200], b: [6000, 200], thickness: 120 },
    },
    openings: { G1: { wall: 'W1', along: 2500, width: 1000, ...opening } },
    outlets: { O1: { level: 'L1', mount: 'wall', wall: 'W1', ...outlet } },
    jacks: { J1: { outlet: 'O1', label: 'A1' } },
  });

const door = { kind: 'door', sill: 0, height: 2100 };
const window = { kind: 'window', sill: 900, height: 1200 };

export const cases: RuleCases = {
  pass: [
    { what: 'beside a door', on: rows(door, { at: [1900, 60], height: 450 }) },
    { what: 'on its edge', on: rows(door, { at: [2000, 60], height: 450 }) },
    { what: 'over a door', on: rows(door, { at: [2500, 60], height: 2100 }) },
    { what: 'below the sill of a window', on: rows(window, { at: [2500, 60], height: 450 }) },
    { what: 'on another wall', on: rows(door, { at: [2500, 140], height: 450, wall: 'W2' }) },
    {
      what: 'on a drop',
      on: rows(door, { at: [2500, 60], height: 450, mount: 'pole', wall: 'W1' }),
    },
  ],
  fail: [
    {
      what: 'in a door',
      on: rows(door, { at: [2010, 60], height: 450 }),
      says: ['Jack A1 is in a door.'],
      at: [2010, 60],
    },
    {
      what: 'in a window',
      on: rows(window, { at: [2500, -60], height: 1200 }),
      says: ['Jack A1 is in a window.'],
    },
    {
      what: 'in a plain opening',
      on: rows({ ...door, kind: 'opening' }, { at: [2500, 60], height: 450 }),
      says: ['Jack A1 is in an opening of its wall.'],
    },
  ],
  limits: {},
};
