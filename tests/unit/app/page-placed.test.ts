import { describe, expect, it } from 'vitest';
import type { PageLine, PageLines } from '../../../src/app/pictures/page-lines.ts';
import { packPage, placementOf, placePage } from '../../../src/app/pictures/page-placed.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { fromPicture } from '../../../src/plan/picture-place.ts';
import { type Background, makeRow } from '../../../src/plan/plan.ts';

const line = (a: Point, b: Point, more: Partial<PageLine> = {}): PageLine => ({
  a,
  b,
  width: 1,
  ink: '#000000',
  dashed: false,
  ...more,
});
const page = (more: Partial<PageLines>): PageLines => ({
  width: 100,
  height: 80,
  lines: [],
  fills: [],
  ...more,
});
const picture = (more: Partial<Background> = {}): Background =>
  makeRow('backgrounds', 'B1', {
    asset: 'a'.repeat(16),
    width: 1000,
    height: 800,
    origin: [500, 700],
    mmPerPixel: 2,
    ...more,
  });
const placed = (read: PageLines, row: Background) => placePage(packPage(read), placementOf(row));

describe('A page in the plan', () => {
  it('lies as its picture does, turned, tilted and scaled', () => {
    for (const turn of [0, 90, 180, 270] as const) {
      const row = picture({ turn, tilt: 12 });
      const { lines, drawn } = placed(page({ lines: [line([10, 20], [30, 40])] }), row);
      const ends = [fromPicture(row, [100, 200]), fromPicture(row, [300, 400])].flat();
      expect(lines).toHaveLength(4);
      ends.forEach((v, i) => {
        expect(lines[i]).toBeCloseTo(v, 6);
      });
      expect(drawn.lines[0]!.width).toBeCloseTo(20, 6);
    }
  });

  it('has no lines that are white, and dashed ones for the eye alone', () => {
    const lines = [
      line([0, 0], [9, 0]),
      line([0, 1], [9, 1], { ink: '#fdfeff' }),
      line([0, 2], [9, 2], { dashed: true }),
    ];
    const { lines: seen, drawn } = placed(page({ lines }), picture());
    expect(seen).toHaveLength(8);
    expect(drawn.lines).toHaveLength(1);
  });

  it('has filled shapes with straight edges, and their edges as lines', () => {
    const ring: Point[] = [
      [0, 0],
      [50, 0],
      [50, 10],
      [0, 10],
    ];
    const fills = [
      { rings: [ring], ink: '#808080', curved: false },
      { rings: [ring], ink: '#ffffff', curved: false },
      { rings: [ring], ink: '#808080', curved: true },
    ];
    const { lines, drawn } = placed(page({ fills }), picture());
    expect(drawn.fills).toHaveLength(1);
    expect(drawn.fills[0]![0]![2]).toEqual([1500, 900]);
    expect(lines).toHaveLength(16);
  });

  it('ends where its picture is cut: lines are cut there, shapes that reach out are left', () => {
    const row = picture({ crop: { x0: 100, y0: 100, x1: 500, y1: 500 } });
    const ring: Point[] = [
      [20, 20],
      [60, 20],
      [60, 30],
      [20, 30],
    ];
    const { lines, drawn } = placed(
      page({
        lines: [line([0, 20], [30, 20]), line([60, 0], [60, 80]), line([20, 20], [20, 99])],
        fills: [{ rings: [ring], ink: '#000000', curved: false }],
      }),
      row,
    );
    expect([...lines.slice(0, 8)]).toEqual([700, 1100, 1100, 1100, 900, 1100, 900, 1700]);
    expect(drawn.lines).toHaveLength(2);
    expect(drawn.fills).toEqual([]);
  });
});
