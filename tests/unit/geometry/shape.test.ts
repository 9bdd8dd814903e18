import { describe, expect, it } from 'vitest';
import { frameAt } from '../../../src/geometry/frame.ts';
import { straighten } from '../../../src/geometry/outline.ts';
import {
  boxShape,
  holdsQuadrant,
  outlineShape,
  spansAlong,
  spansBeside,
} from '../../../src/geometry/shape.ts';

const spans = (...args: [Parameters<typeof spansBeside>[0], 0 | 1, number, 0 | 1]) => {
  const out: number[] = [];
  spansBeside(...args, out);
  return out;
};

describe('a line beside a coordinate', () => {
  const box = boxShape(0, 0, 10, 5);

  it('runs inside a box between its edges', () => {
    expect(spans(box, 0, 2, 0)).toEqual([0, 10]);
    expect(spans(box, 1, 2, 1)).toEqual([0, 5]);
  });

  it('is inside or outside on an edge by its side', () => {
    expect(spans(box, 0, 0, 0)).toEqual([]);
    expect(spans(box, 0, 0, 1)).toEqual([0, 10]);
    expect(spans(box, 0, 5, 0)).toEqual([0, 10]);
    expect(spans(box, 0, 5, 1)).toEqual([]);
  });

  it('runs inside an outline as often as it enters it', () => {
    const u = outlineShape([
      [0, 0],
      [2, 0],
      [2, 4],
      [6, 4],
      [6, 0],
      [8, 0],
      [8, 6],
      [0, 6],
    ]);
    expect(spans(u, 0, 2, 0)).toEqual([0, 2, 6, 8]);
    expect(spans(u, 0, 4, 0)).toEqual([0, 2, 6, 8]);
    expect(spans(u, 0, 4, 1)).toEqual([0, 8]);
    expect(holdsQuadrant(u, 2, 4, 1, 0)).toBe(false);
    expect(holdsQuadrant(u, 2, 4, 1, 1)).toBe(true);
    expect(holdsQuadrant(u, 2, 4, 0, 0)).toBe(true);
  });

  it('finds no inside in an area without one', () => {
    expect(spans(boxShape(3, 0, 3, 5), 0, 2, 0)).toEqual([]);
    expect(spans(boxShape(0, 2, 5, 2), 0, 2, 1)).toEqual([]);
  });

  it('takes four corners for a box only when they are those of one', () => {
    const bow = outlineShape([
      [0, 0],
      [4, 4],
      [4, 0],
      [0, 4],
    ]);
    expect(bow.box).toBe(false);
    expect(spans(bow, 1, 1, 0)).toEqual([1, 3]);
  });
});

it('a slanted line runs inside a box between where it crosses the edges', () => {
  const out: number[] = [];
  spansAlong(boxShape(3, 0, 6, 8), 0, 0, 3, 4, out);
  expect(out[0]).toBeCloseTo(5, 9);
  expect(out[1]).toBeCloseTo(10, 9);
  expect(out).toHaveLength(2);
});

describe('a frame', () => {
  it('turns a place into itself at 0 and exactly at quarters', () => {
    expect(frameAt(0).into([3, 4])).toEqual([3, 4]);
    expect(frameAt(90).into([3, 4])).toEqual([4, -3]);
    expect(frameAt(-90).into([3, 4])).toEqual([-4, 3]);
    expect(frameAt(180).into([3, 4])).toEqual([-3, -4]);
  });

  it('turns a place back to within a millimetre', () => {
    for (const degrees of [12, 45, -30, 200]) {
      const frame = frameAt(degrees);
      const [x, y] = frame.back(...(frame.into([123_456, -98_765]) as [number, number]));
      expect(Math.abs(x - 123_456)).toBeLessThanOrEqual(1);
      expect(Math.abs(y + 98_765)).toBeLessThanOrEqual(1);
    }
  });
});

describe('straightening', () => {
  it('lays an edge that is a hair off along the axis, and leaves others alone', () => {
    const line = straighten(
      [
        [0, 0],
        [5000, 2],
        [5004, 3000],
      ],
      2,
      false,
    );
    expect(line).toEqual([
      [0, 1],
      [5000, 1],
      [5004, 3000],
    ]);
  });

  it('joins the last corner of an outline to the first', () => {
    const outline = straighten(
      [
        [0, 0],
        [100, 0],
        [100, 100],
        [2, 100],
      ],
      2,
      true,
    );
    expect(outline[0]![0]).toBe(outline[3]![0]);
  });
});
