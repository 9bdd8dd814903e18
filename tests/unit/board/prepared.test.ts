import { expect, it } from 'vitest';
import { prepare } from '../../../src/board/canvas/prepared.ts';
import type { Mark, Style } from '../../../src/drawing/display.ts';

const box = (x: number, style: Style): Mark => ({
  op: 'line',
  closed: true,
  points: [
    [x, 0],
    [x + 2000, 0],
    [x + 2000, 1000],
    [x, 1000],
  ],
  style,
});

it('puts equal lines together and fills boxes at once, but paints each translucent mark by itself', () => {
  const thin: Style = { fill: 'area-1', opacity: 0.1 };
  const line: Style = { stroke: 'area-1', opacity: 0.5 };
  const marks = [
    ...[box(0, { fill: 'wall' }), box(1000, { stroke: 'faint' })],
    ...[box(0, thin), box(1000, thin), box(0, line), box(1000, line)],
  ];
  const { items } = prepare([{ marks, strength: 1 }]);
  // Where two of them overlap each must show: painted as one shape, the overlap would be as thin as the rest.
  expect(items.map((item) => item.as)).toEqual(['box', 'line', 'mark', 'mark', 'mark', 'mark']);
});
