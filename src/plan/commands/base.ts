import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { type Background, makeRow } from '../plan.ts';
import type { Command } from './command.ts';

/** Where a place in the plan lies in a picture, in picture pixels, whatever way the picture is turned. */
export function toPicture(picture: Background, at: Point): Point {
  const u = (at[0] - picture.origin[0]) / picture.mmPerPixel;
  const v = (at[1] - picture.origin[1]) / picture.mmPerPixel;
  switch (picture.turn) {
    case 90:
      return [v, picture.height - u];
    case 180:
      return [picture.width - u, picture.height - v];
    case 270:
      return [picture.width - v, u];
    default:
      return [u, v];
  }
}

/** Where a picture pixel lies in the plan; not rounded. */
export function fromPicture(picture: Background, pixel: Point): Point {
  const { width, height, mmPerPixel: s, origin, turn } = picture;
  const [px, py] = pixel;
  const at = (u: number, v: number): Point => [origin[0] + u * s, origin[1] + v * s];
  if (turn === 90) return at(height - py, px);
  if (turn === 180) return at(width - px, height - py);
  if (turn === 270) return at(py, width - px);
  return at(px, py);
}

/** Lays a picture or a PDF page under a level, its top left corner at the origin, so wide that a room shows well. */
export const addBackground: Command<{
  level: Id;
  name: string;
  asset: string;
  width: number;
  height: number;
  /** What the picture itself says of its size, if it does; otherwise it is laid 20 m wide until its scale is set. */
  mmPerPixel?: number;
}> = (plan, { level, name, asset, width, height, mmPerPixel }) => {
  const draft = new Draft(plan);
  const row = makeRow('backgrounds', draft.fresh('backgrounds'), {
    level,
    name,
    asset,
    width,
    height,
    mmPerPixel: mmPerPixel ?? 20_000 / width,
  });
  draft.put('backgrounds', row);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Add background'),
    select: [{ table: 'backgrounds', id: row.id }],
  };
};

/** Shortest line, in picture pixels, that can set a scale: below it a pixel of doubt is several percent. */
const LEAST_PIXELS = 20;

/**
 * Sets the scale of a picture by a known length drawn on it. The first end stays where it is; what is drawn keeps its
 * real size.
 */
export const setScale: Command<{ background: Id; a: Point; b: Point; length: number }> = (
  plan,
  { background: id, a, b, length },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return { ok: false, why: msg('That background is no longer there.') };
  const from = toPicture(picture, a);
  const to = toPicture(picture, b);
  const pixels = distance(from, to);
  if (pixels < LEAST_PIXELS) {
    return {
      ok: false,
      why: msg('That line is too short to set a scale. Draw along a longer known length.'),
    };
  }
  if (!(length >= 1))
    return { ok: false, why: msg('Type the real length of that line, such as 12\'-6" or 3.8 m.') };
  const mmPerPixel = length / pixels;
  const scaled = { ...picture, mmPerPixel };
  const drift = fromPicture(scaled, from);
  const origin: Point = [
    Math.round(picture.origin[0] + a[0] - drift[0]),
    Math.round(picture.origin[1] + a[1] - drift[1]),
  ];
  const draft = new Draft(plan);
  draft.patch('backgrounds', id, {
    mmPerPixel,
    origin,
    scale: { a: from, b: to, length: Math.round(length) },
  });
  return { ok: true, changes: draft.changes(), label: msg('Set scale') };
};

/** Notes a second known length, by which the survey says how far the scale is off. */
export const checkScale: Command<{ background: Id; a: Point; b: Point; length: number }> = (
  plan,
  { background: id, a, b, length },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return { ok: false, why: msg('That background is no longer there.') };
  const from = toPicture(picture, a);
  const to = toPicture(picture, b);
  if (distance(from, to) < LEAST_PIXELS || !(length >= 1)) {
    return {
      ok: false,
      why: msg('Draw the check along a longer known length, and type its real length.'),
    };
  }
  const draft = new Draft(plan);
  draft.patch('backgrounds', id, { check: { a: from, b: to, length: Math.round(length) } });
  return { ok: true, changes: draft.changes(), label: msg('Check scale') };
};

/** Turns a picture by a quarter, clockwise, about its middle. */
export const turnBackground: Command<{ background: Id }> = (plan, { background: id }) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return { ok: false, why: msg('That background is no longer there.') };
  const middle = fromPicture(picture, [picture.width / 2, picture.height / 2]);
  const turned = { ...picture, turn: ((picture.turn + 90) % 360) as Background['turn'] };
  const drift = fromPicture(turned, [picture.width / 2, picture.height / 2]);
  const draft = new Draft(plan);
  draft.patch('backgrounds', id, {
    turn: turned.turn,
    origin: [
      Math.round(picture.origin[0] + middle[0] - drift[0]),
      Math.round(picture.origin[1] + middle[1] - drift[1]),
    ],
  });
  return { ok: true, changes: draft.changes(), label: msg('Turn background') };
};
