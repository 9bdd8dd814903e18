import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hatchLines } from '../../../src/drawing/hatch.ts';
import { offsetChain, pathwayLines } from '../../../src/drawing/pathway-lines.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { tableSchemas } from '../../../src/plan/schema.ts';

const boxes = fc
  .tuple(
    fc.double({ min: -300, max: 300, noNaN: true }),
    fc.double({ min: -300, max: 300, noNaN: true }),
    fc.double({ min: 0.5, max: 120, noNaN: true }),
    fc.double({ min: 0.5, max: 120, noNaN: true }),
  )
  .map(([x, y, w, h]) => ({ x0: x, y0: y, x1: x + w, y1: y + h }));

describe('hatches', () => {
  it('stay in their box and are evenly spread over it', () => {
    fc.assert(
      fc.property(boxes, fc.constantFrom('diagonal', 'cross', 'dots' as const), (box, hatch) => {
        const lines = hatchLines(hatch, box);
        for (const [x, y] of lines.flat()) {
          expect(x).toBeGreaterThanOrEqual(box.x0 - 1e-6);
          expect(x).toBeLessThanOrEqual(box.x1 + 1e-6);
          expect(y).toBeGreaterThanOrEqual(box.y0 - 1e-6);
          expect(y).toBeLessThanOrEqual(box.y1 + 1e-6);
        }
        if (Math.min(box.x1 - box.x0, box.y1 - box.y0) > 6) expect(lines.length).toBeGreaterThan(3);
      }),
      { seed: 7 },
    );
  });

  it('lie on one grid, so that a wall and its neighbour run into one another', () => {
    const sums = (x: number) =>
      hatchLines('diagonal', { x0: x, y0: 0, x1: x + 40, y1: 40 }).map(([a]) => a[0] + a[1]);
    const step = sums(0)[1]! - sums(0)[0]!;
    for (const sum of sums(17.3))
      expect(Math.abs(sum / step - Math.round(sum / step))).toBeLessThan(1e-9);
  });

  it('go both ways where they cross', () => {
    const box = { x0: 0, y0: 0, x1: 20, y1: 20 };
    expect(hatchLines('cross', box).length).toBeGreaterThan(
      hatchLines('diagonal', box).length * 1.8,
    );
  });
});

describe('pathway patterns', () => {
  const kinds = tableSchemas.pathways.shape.kind._zod.def.innerType.options;
  const chain: Point[] = [
    [0, 0],
    [9600, 0],
    [9600, 4800],
  ];

  it('differ from kind to kind in form alone', () => {
    const forms = kinds.map((kind) =>
      JSON.stringify(pathwayLines(kind, chain, 1 / 96).map((mark) => ({ ...mark }))),
    );
    expect(new Set(forms).size).toBe(kinds.length);
    expect(kinds.length).toBe(6);
  });

  it('keep their size on paper at any scale', () => {
    const rungs = (scale: number) => {
      const marks = pathwayLines(
        'tray',
        [
          [0, 0],
          [100 / scale, 0],
        ],
        scale,
      );
      const ticks = marks.filter(
        (mark) => mark.op === 'line' && mark.points[0]![0] === mark.points[1]![0],
      );
      const tick = ticks[0]!;
      if (tick.op !== 'line') throw new Error('a rung is a line');
      return {
        count: ticks.length,
        height: Math.abs(tick.points[1]![1] - tick.points[0]![1]) * scale,
      };
    };
    expect(rungs(1 / 50).count).toBe(rungs(1 / 200).count);
    expect(rungs(1 / 50).height).toBeCloseTo(rungs(1 / 200).height, 9);
  });

  it('offset a chain by the same distance on every piece, mitred at its corners', () => {
    expect(offsetChain(chain, 100)).toEqual([
      [0, 100],
      [9500, 100],
      [9500, 4800],
    ]);
  });
});
