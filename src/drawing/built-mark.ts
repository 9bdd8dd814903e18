import type { Point } from '../geometry/point.ts';
import type { BuiltState } from '../plan/built.ts';
import type { Ink, Mark } from './display.ts';

/** Width of the mark beside a label with the room before the label, paper mm. */
export const BUILT_WIDTH = 2.6;

const STROKE = { width: 0.32 } as const;

/** What stands beside the label of jacks that were built: a tick once all are recorded, a cross where one failed its test. */
export function builtMark(state: BuiltState, x: number, y: number, ink: Ink): Mark[] {
  const line = (points: readonly Point[]): Mark => ({
    op: 'line',
    points: points.map(([dx, dy]): Point => [x + dx, y + dy]),
    style: { stroke: ink, ...STROKE },
  });
  const [tick, cross] = [
    [
      line([
        [-0.8, 0.05],
        [-0.25, 0.65],
        [0.8, -0.75],
      ]),
    ],
    [
      line([
        [-0.7, -0.7],
        [0.7, 0.7],
      ]),
      line([
        [-0.7, 0.7],
        [0.7, -0.7],
      ]),
    ],
  ];
  if (state === 'failed') return cross;
  return state === 'recorded' || state === 'passed' ? tick : [];
}
