import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, boxAround, overlaps } from '../../../src/drawing/box-grid.ts';
import {
  avoidWall,
  FAR_AWAY,
  makeField,
  place,
  take,
  type Wish,
} from '../../../src/drawing/label-place.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const wish: fc.Arbitrary<Wish> = fc.record({
  anchor: fc.tuple(number(0, 70), number(0, 70)),
  reach: number(0.2, 3),
  width: number(1, 14),
  height: number(1, 6),
  onAnchor: fc.boolean(),
});

describe('label placement', () => {
  it('never puts one box on another, nor on what was taken before', () => {
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 60 }), (wishes) => {
        const field = makeField();
        const pillar: Box = { x0: 30, y0: 30, x1: 40, y1: 36 };
        take(field, pillar);
        const boxes = [pillar];
        for (const one of wishes) {
          const placed = place(field, one);
          if (placed) boxes.push(boxAround(placed.at, one.width, one.height));
        }
        for (let i = 0; i < boxes.length; i++)
          for (let j = 0; j < i; j++) expect(overlaps(boxes[i]!, boxes[j]!)).toBe(false);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('never covers a line back to an object', () => {
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 40 }), (wishes) => {
        const field = makeField();
        const leaders: (readonly [readonly [number, number], readonly [number, number]])[] = [];
        for (const one of wishes) {
          const placed = place(field, one);
          if (!placed) continue;
          const box = boxAround(placed.at, one.width, one.height);
          for (const [a, b] of leaders)
            for (let t = 0; t <= 1; t += 0.02) {
              const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
              const inside = x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1;
              expect(inside).toBe(false);
            }
          if (placed.leader) leaders.push(placed.leader);
        }
      }),
      { seed: 12, numRuns: 40 },
    );
  });

  it('gives a symbol its own place when that is free, and a line back when it is not', () => {
    const field = makeField();
    const one: Wish = { anchor: [10, 10], reach: 0.3, width: 6, height: 4, onAnchor: true };
    expect(place(field, one)).toEqual({ at: [10, 10], leader: null });
    const second = place(field, one)!;
    expect(second.at).not.toEqual([10, 10]);
    expect(second.leader![0]).toEqual([10, 10]);
  });

  it('puts a label beside its object without a line as long as it touches it', () => {
    const field = makeField();
    const label: Wish = { anchor: [10, 10], reach: 2, width: 5, height: 2, onAnchor: false };
    take(field, boxAround([10, 10], 4, 4));
    const placed = place(field, label)!;
    expect(placed.leader).toBeNull();
    expect(placed.at[1]).toBe(10);
  });

  it('stays within bounds, and gives up rather than go beyond', () => {
    const bounds: Box = { x0: 0, y0: 0, x1: 12, y1: 8 };
    const field = makeField(bounds);
    const label: Wish = { anchor: [6, 4], reach: 1, width: 4, height: 2, onAnchor: false };
    let count = 0;
    for (let placed = place(field, label); placed; placed = place(field, label)) {
      const box = boxAround(placed.at, 4, 2);
      expect(box.x0).toBeGreaterThanOrEqual(0);
      expect(box.x1).toBeLessThanOrEqual(12);
      expect(box.y0).toBeGreaterThanOrEqual(0);
      expect(box.y1).toBeLessThanOrEqual(8);
      count++;
    }
    expect(count).toBeGreaterThan(1);
  });

  it('goes no further than the distance at which a label would mislead', () => {
    const field = makeField();
    const one: Wish = { anchor: [0, 0], reach: 1, width: 8, height: 4, onAnchor: false };
    for (let placed = place(field, one); placed; placed = place(field, one)) {
      const gap = Math.hypot(
        Math.max(0, Math.abs(placed.at[0]) - 4),
        Math.max(0, Math.abs(placed.at[1]) - 2),
      );
      expect(gap).toBeLessThanOrEqual(FAR_AWAY + 2);
    }
  });

  it('keeps a label on its own side of a wall when there is room', () => {
    const field = makeField();
    avoidWall(field, [12, -50], [12, 50], 1);
    // The best place, at the right, lies on the wall; the next best would be beyond it.
    const label: Wish = { anchor: [10.5, 0], reach: 1, width: 6, height: 2, onAnchor: false };
    for (let n = 0; n < 4; n++) expect(place(field, label)!.at[0]).toBeLessThan(12);
  });

  it('keeps off what reaches kilometres beyond any sheet', () => {
    const field = makeField();
    const huge: Box = { x0: -400_000, y0: -400_000, x1: 20, y1: 400_000 };
    take(field, huge);
    const label: Wish = { anchor: [10, 0], reach: 1, width: 6, height: 2, onAnchor: false };
    const placed = place(field, label)!;
    expect(overlaps(boxAround(placed.at, 6, 2), huge)).toBe(false);
  });
});
