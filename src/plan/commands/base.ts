import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { type Corners, homography, mapped } from '../../geometry/homography.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { fromPicture, inLayers, laidAt, middleOf, shownPart, toPicture } from '../picture-place.ts';
import { type Background, isSound, makeRow, type Plan } from '../plan.ts';
import { BEYOND } from '../row-places.ts';
import { isDrawnOn, scaleDrawn } from '../scale-drawn.ts';
import type { Command, Outcome } from './command.ts';

type Refusal = Extract<Outcome, { ok: false }>;
const no = (why: Message): Refusal => ({ ok: false, why });
const GONE = no(msg('That background is no longer there.'));

/** How large a picture is laid before anybody has said its scale: this wide, or 1/8 in. to 1 ft on its paper; no source. */
const FIRST_WIDTH = 20_000;
const FIRST_RATIO = 96;

/** Lays a picture or a PDF page over the others of a level, its top left corner at the origin, so wide that a room shows well. */
export const addBackground: Command<{
  level: Id;
  name: string;
  asset: string;
  page?: number;
  width: number;
  height: number;
  /** How wide it is on paper, mm, if it says so itself. */
  paper?: number | null;
  /** How many pixels make an inch on paper, as its file says. */
  dots?: number | null;
  /** Whether it is a photo. */
  photo?: boolean;
  /** How strong it is shown, %. */
  opacity?: number;
}> = (plan, { level, name, asset, page = 1, width, height, photo = false, ...print }) => {
  const { paper = null, dots = null, opacity } = print;
  const draft = new Draft(plan);
  const top = inLayers(plan, level).at(-1);
  const row = makeRow('backgrounds', draft.fresh('backgrounds'), {
    level,
    name,
    asset,
    page,
    width,
    height,
    paper,
    dots,
    photo,
    ...(opacity === undefined ? {} : { opacity }),
    mmPerPixel: (paper === null ? FIRST_WIDTH : paper * FIRST_RATIO) / width,
    order: top?.order ?? 0,
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

/** What happens to what is drawn when a scale changes: it keeps its real size, or goes along with the picture. */
export interface Rescale {
  readonly follow?: boolean;
}

const TOO_LARGE = msg('At that scale the picture would be larger than any building.');

/**
 * Puts a picture with a new scale, one of its pixels staying where it is. With `follow`, everything drawn on its level
 * grows or shrinks about that place.
 */
function rescaled(
  plan: Plan,
  before: Background,
  after: Background,
  still: Point,
  follow: boolean,
): Outcome {
  if (!(after.mmPerPixel > 0 && after.mmPerPixel <= 100_000)) return no(TOO_LARGE);
  const about = fromPicture(before, still);
  const draft = new Draft(plan);
  const laid = laidAt(after, still, about);
  if (!isSound('backgrounds', laid)) return no(TOO_LARGE);
  draft.put('backgrounds', laid);
  const factor = after.mmPerPixel / before.mmPerPixel;
  if (follow && !scaleDrawn(draft, before.level, about, factor))
    return no(
      msg(
        'At that scale, what is drawn would be too large or too small for a plan. Nothing was changed.',
      ),
    );
  const label =
    follow && isDrawnOn(plan, before.level)
      ? msg('Set scale, with what is drawn')
      : msg('Set scale');
  return { ok: true, changes: draft.changes(), label };
}

/**
 * Sets the scale of a picture by a known length drawn on it; the first end stays where it is. What is drawn keeps its
 * real size, unless it is told to follow.
 */
export const setScale: Command<{ background: Id; a: Point; b: Point; length: number } & Rescale> = (
  plan,
  { background: id, a, b, length, follow = false },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const from = toPicture(picture, a);
  const to = toPicture(picture, b);
  const pixels = distance(from, to);
  if (pixels < LEAST_PIXELS)
    return no(msg('That line is too short to set a scale. Draw along a longer known length.'));
  if (!(length >= 1))
    return no(msg('Type the real length of that line, such as 12\'-6" or 3.8 m.'));
  const scale = { a: from, b: to, length: Math.round(length) };
  const after = { ...picture, mmPerPixel: length / pixels, scale, ratio: null };
  return rescaled(plan, picture, after, from, follow);
};

/**
 * Sets the scale of a picture by the scale that is printed on it; the middle of what is shown stays where it is.
 *
 * `ratio` is how many times larger the building is; `paper` how wide the whole picture is on paper, mm.
 */
export const setPrintedScale: Command<
  { background: Id; ratio: number; paper: number } & Rescale
> = (plan, { background: id, ratio, paper, follow = false }) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  if (!(ratio > 0 && paper > 0 && paper <= 100_000))
    return no(msg('Say the printed scale, and how wide the sheet is.'));
  const { x0, y0, x1, y1 } = shownPart(picture);
  const mmPerPixel = (ratio * paper) / picture.width;
  const after = { ...picture, mmPerPixel, paper, ratio, scale: null };
  return rescaled(plan, picture, after, [(x0 + x1) / 2, (y0 + y1) / 2], follow);
};

/** Notes a second known length, by which the survey says how far the scale is off. */
export const checkScale: Command<{ background: Id; a: Point; b: Point; length: number }> = (
  plan,
  { background: id, a, b, length },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const from = toPicture(picture, a);
  const to = toPicture(picture, b);
  if (distance(from, to) < LEAST_PIXELS || !(length >= 1))
    return no(msg('Draw the check along a longer known length, and type its real length.'));
  const draft = new Draft(plan);
  const checked = { ...picture, check: { a: from, b: to, length: Math.round(length) } };
  if (!isSound('backgrounds', checked)) return no(BEYOND);
  draft.put('backgrounds', checked);
  return { ok: true, changes: draft.changes(), label: msg('Check scale') };
};

/** Turns a picture by a quarter, clockwise, about its middle. */
export const turnBackground: Command<{ background: Id }> = (plan, { background: id }) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const turn = ((picture.turn + 90) % 360) as Background['turn'];
  const middle: Point = [picture.width / 2, picture.height / 2];
  const laid = laidAt({ ...picture, turn }, middle, middleOf(picture));
  if (!isSound('backgrounds', laid)) return no(BEYOND);
  const draft = new Draft(plan);
  draft.put('backgrounds', laid);
  return { ok: true, changes: draft.changes(), label: msg('Turn background') };
};

/** Turns a picture, about the first end of a line drawn on it, so that the line lies level or plumb, whichever is nearer. */
export const levelBackground: Command<{ background: Id; a: Point; b: Point }> = (
  plan,
  { background: id, a, b },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  if (distance(a, b) === 0) return no(msg('Draw along a wall that should be level or plumb.'));
  const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  const off = angle - 90 * Math.round(angle / 90);
  const whole = picture.turn + picture.tilt - off;
  const turn = 90 * Math.round(whole / 90);
  const tilt = Math.round((whole - turn) * 1000) / 1000;
  const upright = { ...picture, turn: (((turn % 360) + 360) % 360) as Background['turn'], tilt };
  const draft = new Draft(plan);
  const laid = laidAt(upright, toPicture(picture, a), a);
  if (!isSound('backgrounds', laid)) return no(BEYOND);
  draft.put('backgrounds', laid);
  if (draft.changes().length === 0) return no(msg('That line is level or plumb already.'));
  return { ok: true, changes: draft.changes(), label: msg('Level background') };
};

/** Shows only the part of a picture between two corners that were drawn on it. */
export const cropBackground: Command<{ background: Id; a: Point; b: Point }> = (
  plan,
  { background: id, a, b },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const [p, q] = [toPicture(picture, a), toPicture(picture, b)];
  const clamp = (value: number, most: number): number =>
    Math.round(Math.max(0, Math.min(most, value)));
  const { width, height } = picture;
  const crop = {
    x0: clamp(Math.min(p[0], q[0]), width),
    y0: clamp(Math.min(p[1], q[1]), height),
    x1: clamp(Math.max(p[0], q[0]), width),
    y1: clamp(Math.max(p[1], q[1]), height),
  };
  if (crop.x1 - crop.x0 < LEAST_PIXELS || crop.y1 - crop.y0 < LEAST_PIXELS)
    return no(msg('Draw a box round the part of the picture that you want to keep.'));
  const draft = new Draft(plan);
  draft.patch('backgrounds', id, { crop });
  return { ok: true, changes: draft.changes(), label: msg('Crop background') };
};

/** Lays a picture over the next one of its level, or under it. */
export const layBackground: Command<{ background: Id; over: boolean }> = (
  plan,
  { background: id, over },
) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const layers = inLayers(plan, picture.level);
  const from = layers.findIndex((one) => one.id === id);
  const to = from + (over ? 1 : -1);
  if (to < 0 || to >= layers.length)
    return no(over ? msg('It is the topmost already.') : msg('It is the lowest already.'));
  [layers[from], layers[to]] = [layers[to]!, layers[from]!];
  const draft = new Draft(plan);
  layers.forEach((one, order) => {
    draft.patch('backgrounds', one.id, { order });
  });
  const label = over ? msg('Lay background over') : msg('Lay background under');
  return { ok: true, changes: draft.changes(), label };
};

/**
 * Puts a straightened picture in the place of a photo. `corners`, in pixels of the photo, became the corners of the new
 * picture. Known lengths go along, and set the scale anew; without one the picture stays as large as it was.
 */
export const straightenBackground: Command<{
  background: Id;
  corners: Corners;
  asset: string;
  width: number;
  height: number;
  /** Whether what is left of it is a photo still; its sheet alone may be a drawing. */
  photo?: boolean;
}> = (plan, { background: id, corners, asset, width, height, photo }) => {
  const picture = plan.tables.backgrounds.get(id);
  if (!picture) return GONE;
  const map = homography(corners, [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]);
  if (!map)
    return no(msg('The four corners must go round the sheet without a dent or a crossing.'));
  const along = (known: Background['scale']): Background['scale'] => {
    if (!known) return null;
    const [a, b] = [mapped(map, known.a), mapped(map, known.b)];
    const sound = [...a, ...b].every(Number.isFinite) && distance(a, b) >= LEAST_PIXELS;
    return sound ? { a, b, length: known.length } : null;
  };
  const scale = along(picture.scale);
  const around = corners.map((corner) => fromPicture(picture, corner));
  const across = (distance(around[0]!, around[1]!) + distance(around[3]!, around[2]!)) / 2;
  const middle: Point = [
    around.reduce((sum, [x]) => sum + x, 0) / 4,
    around.reduce((sum, [, y]) => sum + y, 0) / 4,
  ];
  const straight: Background = {
    ...picture,
    asset,
    page: 1,
    width,
    height,
    mmPerPixel: scale ? scale.length / distance(scale.a, scale.b) : across / width,
    paper: null,
    dots: null,
    ratio: null,
    photo: photo ?? picture.photo,
    turn: 0,
    tilt: 0,
    crop: null,
    scale,
    check: along(picture.check),
  };
  const laid = laidAt(straight, [width / 2, height / 2], middle);
  if (!isSound('backgrounds', laid)) return no(TOO_LARGE);
  const draft = new Draft(plan);
  draft.put('backgrounds', laid);
  return { ok: true, changes: draft.changes(), label: msg('Straighten background') };
};
