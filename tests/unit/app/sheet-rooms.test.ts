import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';
import { packPage, placePage } from '../../../src/app/pictures/page-placed.ts';
import { readSvgLines } from '../../../src/app/pictures/svg-lines.ts';
import { enclosure } from '../../../src/geometry/enclosure.ts';
import { openSides, type Side } from '../../../src/geometry/open-sides.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { doubleArea } from '../../../src/geometry/polygon.ts';
import { findWalls, type WallOffer } from '../../../src/geometry/wall-finder/find-walls.ts';
import { arePassages } from '../../../src/plan/commands/fill-room.ts';

/** mm of the building to a point of the sheet, 1/72 in. at a scale of 1:48. */
const POINT = (48 * 25.4) / 72;

/**
 * Every room of the workshop floor that its lines close round: a place inside in points of the sheet, and its area
 * along the middles of its walls, as it measures on the sheet, m². What is open on the sheet (the hall, whose east side is a
 * dashed line, the corridor, the kitchen corner) is none of them.
 */
const ROOMS: Readonly<Record<string, readonly [x: number, y: number, area: number]>> = {
  'north room': [1788, 175, 14.0],
  'second room': [1730, 374, 16.1],
  'third room': [1788, 631, 25.1],
  closet: [2115, 596, 3.0],
  toilet: [2138, 701, 4.0],
  'east room': [2337, 678, 20.2],
  'room with two doors': [2360, 935, 25.8],
  'room below it': [2360, 1180, 17.1],
  'entry, inner': [2472, 1582, 2.4],
  'entry, outer': [2472, 1676, 2.8],
  'glazed office': [1460, 1215, 10.2],
  'room with a slanted side': [1659, 1250, 15.5],
  'angled store': [1818, 1285, 7.1],
  'narrow store': [1897, 1285, 3.9],
  'west room': [549, 1005, 12.8],
  'room with a double door': [608, 1262, 25.7],
  vestibule: [2190, 1846, 5.3],
};

describe('The rooms of a real sheet, once a box has taken over its sure walls', () => {
  let offers: readonly WallOffer[] = [];
  beforeAll(() => {
    const file = new URL('../../fixtures/plans/workshop-floor.svg.gz', import.meta.url);
    const page = packPage(readSvgLines(gunzipSync(readFileSync(file)).toString())!);
    const mm = (42 * 25.4 * 48) / page.width;
    const { drawn } = placePage(page, {
      width: page.width,
      matrix: [mm, 0, 0, mm, 0, 0],
      crop: null,
    });
    ({ offers } = findWalls(drawn));
  });

  const sure = () => offers.filter(({ doubts }) => doubts.length === 0);
  const round = ([x, y]: readonly [number, number, number]) => {
    const place: Point = [x * POINT, y * POINT];
    const once = enclosure(sure(), place);
    return { clicks: once.closed ? 1 : arePassages(once.leaks) ? 2 : null, ...once };
  };

  test('close by a click, and the rest by a second one where a doorway is wide', () => {
    const found = Object.values(ROOMS).map(round);
    expect(found.filter(({ clicks }) => clicks === null)).toEqual([]);
    expect(found.filter(({ clicks }) => clicks === 1)).toHaveLength(14);
  });

  test.each(Object.keys(ROOMS))('are as large as they measure on the sheet: the %s', (name) => {
    const room = ROOMS[name]!;
    const found = round(room);
    const area = doubleArea(found.outline) / 2e6;
    expect(Math.abs(area - room[2])).toBeLessThan(0.02 * room[2]);
  });

  test('have a hall between them, once a line is drawn along each side that is open', () => {
    const place: Point = [1100 * POINT, 1300 * POINT];
    const sides: readonly (readonly [number, number, number, number])[] = [
      [936, 866, 1126, 880],
      [1933, 800, 2060, 800],
      [2060, 780, 2060, 960],
      [2525, 1735, 2525, 1905],
      [2262, 1905, 2525, 1905],
    ];
    expect(enclosure(sure(), place)).toEqual({ closed: false, leaks: [], outline: [] });
    const lines = sides.map(
      ([ax, ay, bx, by]): Side => [
        [ax * POINT, ay * POINT],
        [bx * POINT, by * POINT],
      ],
    );
    const hall = enclosure([...sure(), ...openSides(lines, sure())], place);
    // With the corner to the west of it and the room to the east, whose doorways are wide.
    expect(hall.closed && Math.round(doubleArea(hall.outline) / 2e6)).toBe(526);
  });

  test('have outer walls of one piece with their windows, and nothing in doubt in them', () => {
    const upright = sure().filter(({ a, b }) => a[0] === b[0]);
    const at = (x: number, y: number): WallOffer | undefined =>
      upright.find(
        ({ a, b }) =>
          Math.abs(a[0] - x * POINT) < 100 &&
          Math.min(a[1], b[1]) < y * POINT &&
          Math.max(a[1], b[1]) > y * POINT,
      );
    const outer = at(1657, 500)!;
    expect(outer.thickness).toBe(305);
    // Four whole ones, and one at which the sheet ends.
    expect(outer.windows).toHaveLength(5);
    expect(at(466, 1000)!.windows).toHaveLength(1);
    const doubtful = offers.filter(({ doubts }) => doubts.length > 0);
    const near = ({ a, b }: WallOffer, [x, y]: Point) =>
      Math.hypot((a[0] + b[0]) / 2 - x * POINT, (a[1] + b[1]) / 2 - y * POINT) < 600;
    for (const place of [
      [1657, 467],
      [466, 1100],
      [900, 1650],
      [1870, 1952],
    ] as const)
      expect(
        sure().some((offer) => near(offer, place)) || !doubtful.some((offer) => near(offer, place)),
      ).toBe(true);
  });
});
