import { expect, it } from 'vitest';
import { freePart } from '../../../src/desk/free-part.ts';
import { viewOn } from '../../../src/desk/show.ts';

const box = (left: number, top: number, right: number, bottom: number) => ({
  left,
  top,
  right,
  bottom,
});
/** Boards below their job line, on a tablet and on a phone. */
const TABLET = box(0, 170, 820, 1074);
const PHONE = box(0, 169, 390, 738);

it.each([
  ['no drawer', TABLET, [], null],
  ['one that is put away', TABLET, [box(0, 0, 0, 0)], null],
  ['one beside the board', TABLET, [box(-272, 170, 0, 1074)], null],
  ['one at the left', TABLET, [box(0, 169, 340, 1124)], box(340, 0, 480, 904)],
  ['one at the right', TABLET, [box(480, 169, 820, 1124)], box(0, 0, 480, 904)],
  ['one at the foot', PHONE, [box(0, 400, 390, 788)], box(0, 0, 390, 231)],
  ['one over all of it', PHONE, [box(0, 0, 390, 844)], null],
] as const)('%s leaves its part of the board', (_, board, drawers, part) => {
  const found = freePart(board, drawers);
  expect(found).toEqual(
    part && { left: part.left, top: part.top, width: part.right, height: part.bottom },
  );
});

it('has what is shown in the middle of the part that is free', () => {
  const view = { scale: 0.03, left: 0, top: 0, width: 390, height: 569 };
  const { left, top, scale } = viewOn(view, [[20_000, 10_000]], {
    left: 0,
    top: 0,
    width: 390,
    height: 231,
  });
  expect((20_000 - left) * scale).toBeCloseTo(195);
  expect((10_000 - top) * scale).toBeCloseTo(115.5);
  // With air round it that is free, too.
  expect(6000 * scale).toBeLessThanOrEqual(231);
});
