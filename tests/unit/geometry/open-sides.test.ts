import { expect, it } from 'vitest';
import { openSides } from '../../../src/geometry/open-sides.ts';

const wall = { a: [0, 0], b: [0, 5000], thickness: 200 } as const;
const links = (
  ...sides: readonly (readonly [readonly [number, number], readonly [number, number]])[]
) =>
  openSides(sides, [wall])
    .slice(sides.length)
    .map(({ a, b }) => [a, b]);

it('leads from the end of an open side to the nearest wall that is no farther than a doorway', () => {
  expect(
    links([
      [1000, 2000],
      [9000, 2000],
    ]),
  ).toEqual([
    [
      [1000, 2000],
      [0, 2000],
    ],
  ]);
  expect(
    links([
      [1700, 2000],
      [9000, 2000],
    ]),
  ).toEqual([]);
});

it('leads nowhere from an end that touches one already', () => {
  expect(
    links([
      [250, 2000],
      [9000, 2000],
    ]),
  ).toEqual([]);
  expect(
    links([
      [251, 2000],
      [9000, 2000],
    ]),
  ).toHaveLength(1);
});

it('leads from one open side to another, and from none to itself', () => {
  expect(
    links(
      [
        [5000, 0],
        [9000, 0],
      ],
      [
        [9500, 500],
        [9500, 4000],
      ],
    ),
  ).toEqual([
    [
      [9000, 0],
      [9500, 500],
    ],
    [
      [9500, 500],
      [9000, 0],
    ],
  ]);
  expect(
    links([
      [5000, 0],
      [5400, 0],
    ]),
  ).toEqual([]);
});
