import { expect, test } from 'vitest';
import { clearOf, type ScreenLine } from '../../../src/desk/dialogs/clear-of.ts';

const DIALOG = { width: 480, height: 300 };
const LAPTOP = { left: 0, top: 0, width: 1280, height: 800 };
const TABLET = { left: 0, top: 0, width: 820, height: 1180 };

const hides = ([a, b]: ScreenLine, left: number, top: number): boolean =>
  [...Array(101).keys()].some((i) => {
    const x = a[0] + ((b[0] - a[0]) * i) / 100;
    const y = a[1] + ((b[1] - a[1]) * i) / 100;
    return x > left && x < left + DIALOG.width && y > top && y < top + DIALOG.height;
  });

const LINES: readonly (readonly [string, ScreenLine])[] = [
  [
    'across the middle',
    [
      [300, 400],
      [700, 400],
    ],
  ],
  [
    'along the bottom',
    [
      [260, 760],
      [780, 760],
    ],
  ],
  [
    'along the top',
    [
      [260, 90],
      [780, 90],
    ],
  ],
  [
    'from top to bottom',
    [
      [560, 100],
      [560, 780],
    ],
  ],
  [
    'a short one',
    [
      [400, 500],
      [430, 505],
    ],
  ],
  [
    'aslant',
    [
      [300, 150],
      [700, 380],
    ],
  ],
  [
    'aslant the other way, and long',
    [
      [270, 760],
      [780, 110],
    ],
  ],
];

for (const [screen, size] of Object.entries({ laptop: LAPTOP, tablet: TABLET }))
  test.each(LINES)(`on a ${screen} a dialog leaves a line in sight that lies %s`, (_, line) => {
    const { left, top } = clearOf(line, DIALOG, size);
    expect(hides(line, left, top)).toBe(false);
    expect(left).toBeGreaterThanOrEqual(0);
    expect(top).toBeGreaterThanOrEqual(0);
    expect(left + DIALOG.width).toBeLessThanOrEqual(size.width);
    expect(top + DIALOG.height).toBeLessThanOrEqual(size.height);
  });

test('it stands below the line where there is room, under its middle', () => {
  const line: ScreenLine = [
    [400, 200],
    [800, 200],
  ];
  expect(clearOf(line, DIALOG, LAPTOP)).toEqual({ left: 360, top: 228 });
});

test.each(LINES)(
  'over a keyboard on the glass it keeps to what is seen, for a line that lies %s',
  (_, line) => {
    const seen = { left: 0, top: 60, width: 820, height: 420 };
    const { left, top } = clearOf(line, DIALOG, seen);
    expect(left).toBeGreaterThanOrEqual(0);
    expect(left + DIALOG.width).toBeLessThanOrEqual(820);
    expect(top).toBeGreaterThanOrEqual(60);
    expect(top + DIALOG.height).toBeLessThanOrEqual(480);
  },
);
