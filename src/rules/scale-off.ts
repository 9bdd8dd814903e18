import { type Message, msg } from '../base/message.ts';
import { hasScale } from '../plan/picture-place.ts';
import type { Background } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

type KnownLength = NonNullable<Background['check']>;

/** The check length may be off by so many percent. */
const MOST_PERCENT = 1;

/** The second known length on a picture does not measure what was typed: a wrong scale, or a stretched picture. */
export const scaleOff: Rule = {
  id: 'scale-off',
  title: msg('The scale of a background does not agree with its check length'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [{ name: 'check length off by', value: `${MOST_PERCENT} %`, clause: 'either way' }],
  check: ({ plan }) =>
    [...plan.tables.backgrounds.values()].flatMap((picture) => {
      const { scale, check } = picture;
      return hasScale(picture) && check ? remarks(picture, scale, check) : [];
    }),
};

/** A printed scale has no length of its own to compare with. */
function remarks(picture: Background, scale: KnownLength | null, check: KnownLength): Remark[] {
  const measured = pixels(check) * picture.mmPerPixel;
  if (Math.abs(measured - check.length) * 100 <= check.length * MOST_PERCENT) return [];
  const axes = scale && scalesByAxis(scale, check);
  return [
    {
      subjects: [{ table: 'backgrounds', id: picture.id }],
      at: { level: picture.level, point: picture.origin },
      message: axes ? byAxis(picture, axes) : alongOne(picture, check, measured),
      remedy: axes
        ? msg(
            'Measure both lengths again. If they are right, the picture is stretched: use a better copy of it.',
          )
        : msg(scale ? ONE_WRONG : PRINT_WRONG),
      fix: null,
    },
  ];
}

const ONE_WRONG =
  'One of the two lengths was read or typed wrong. Measure both again, and set the scale anew.';
const PRINT_WRONG =
  'The copy was resized, or the length was read or typed wrong. Measure again, or set the scale by the length.';

const across = (line: KnownLength): number => Math.abs(line.b[0] - line.a[0]);
const down = (line: KnownLength): number => Math.abs(line.b[1] - line.a[1]);
const pixels = (line: KnownLength): number => Math.hypot(across(line), down(line));

/** How far two directions must differ, as the difference of their squared cosines, to tell the axes apart. */
const APART = 0.5;

/**
 * The mm per pixel across and down the picture that make both lengths right: two equations in their squares. Null
 * where the lines run too much alike to tell, or where no stretching makes both right.
 */
function scalesByAxis(one: KnownLength, two: KnownLength): { x: number; y: number } | null {
  const [a, b, c, d] = [across(one) ** 2, down(one) ** 2, across(two) ** 2, down(two) ** 2];
  if (Math.abs(a / (a + b) - c / (c + d)) < APART) return null;
  const determinant = a * d - b * c;
  const x = (one.length ** 2 * d - two.length ** 2 * b) / determinant;
  const y = (two.length ** 2 * a - one.length ** 2 * c) / determinant;
  return x > 0 && y > 0 ? { x: Math.sqrt(x), y: Math.sqrt(y) } : null;
}

/** `+2.0`: how much longer than real the scale shows a length. */
function off(shown: number, real: number): string {
  const percent = ((shown / real - 1) * 100).toFixed(1);
  return Number(percent) > 0 ? `+${percent}` : percent;
}

/** `2.0 % too long`, or `right`. */
function wrong(shown: number, real: number): string {
  const percent = ((shown / real - 1) * 100).toFixed(1);
  if (Number(percent) === 0) return 'right';
  return `${percent.replace('-', '')} % too ${Number(percent) > 0 ? 'long' : 'short'}`;
}

const nameOf = (picture: Background): string => picture.name || 'the background';

function byAxis(picture: Background, axes: { x: number; y: number }): Message {
  // Turned by a quarter, what was across the picture is seen up and down.
  const seen = picture.turn % 180 === 0 ? axes : { x: axes.y, y: axes.x };
  return msg('On {name}, lengths across are {across} and lengths up and down are {down}.', {
    name: nameOf(picture),
    across: wrong(picture.mmPerPixel, seen.x),
    down: wrong(picture.mmPerPixel, seen.y),
  });
}

function alongOne(picture: Background, check: KnownLength, measured: number): Message {
  const share = across(check) ** 2 / (across(check) ** 2 + down(check) ** 2);
  const level = picture.turn % 180 === 0 ? share : 1 - share;
  const params = {
    name: nameOf(picture),
    typed: { mm: check.length },
    measured: { mm: measured },
    off: off(measured, check.length),
  };
  if (level > 1 - APART / 2)
    return msg(
      'On {name}, {typed} across measures {measured}: off by {off} % (+ is too long).',
      params,
    );
  if (level < APART / 2)
    return msg(
      'On {name}, {typed} up and down measures {measured}: off by {off} % (+ is too long).',
      params,
    );
  return msg(
    'On {name}, {typed} aslant measures {measured}: off by {off} % (+ is too long).',
    params,
  );
}
