import { expect, it } from 'vitest';
import { followPicture } from '../../../src/board/follow-picture.ts';
import { toBoard } from '../../../src/board/session.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { fromPicture } from '../../../src/plan/picture-place.ts';
import { drive, picturePlan } from './driver.ts';

/** Where two of the picture's pixels are on the screen. */
function seen(d: ReturnType<typeof drive>): Point[] {
  const picture = d.plan().tables.backgrounds.get('B1')!;
  const pixels: Point[] = [
    [100, 100],
    [900, 700],
  ];
  return pixels.map((p) => toBoard(d.state().viewport, fromPicture(picture, p)));
}

const near = (places: readonly Point[]) =>
  places.map(([x, y]) => [expect.closeTo(x, -0.5), expect.closeTo(y, -0.5)]);

it('keeps a picture where it is on the screen when its scale is set, taken back and done again', () => {
  const d = drive({ plan: picturePlan() });
  const stop = followPicture(d.session);
  const before = seen(d);
  const { actions } = d.state();
  actions.run('set-scale', {
    background: 'B1',
    a: [1000, 1000],
    b: [9000, 1000],
    length: 40_000,
    follow: false,
  });
  expect(d.plan().tables.backgrounds.get('B1')!.mmPerPixel).toBe(50);
  expect(seen(d)).toEqual(near(before));
  actions.undo();
  expect(seen(d)).toEqual(near(before));
  actions.redo();
  expect(seen(d)).toEqual(near(before));
  stop();
  const { viewport } = d.state();
  actions.undo();
  expect(d.state().viewport).toBe(viewport);
});

it('leaves the view alone while a picture is moved, turned or faded', () => {
  const d = drive({ plan: picturePlan() });
  followPicture(d.session);
  const { viewport, actions } = d.state();
  actions.run('move', { refs: [{ table: 'backgrounds', id: 'B1' }], by: [500, 0] });
  actions.run('turn-background', { background: 'B1' });
  actions.run('edit', { table: 'backgrounds', id: 'B1', fields: { opacity: 30 } });
  expect(d.state().history.cursor).toBe(3);
  expect(d.state().viewport).toBe(viewport);
});
