import { FOOT, INCH, METRE, type Units } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import type { Outlet } from '../plan/plan.ts';
import type { CrossingWork } from '../results/types.ts';
import type { Ink, Mark, Style } from './display.ts';

/**
 * The symbols of the drawing, in paper mm round their own origin, so that they keep their size at any scale.
 * Shapes and letters tell everything; colour only repeats it.
 */
const HAIR = 0.18;
const THIN = 0.25;
const MEDIUM = 0.35;

const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** A point turned clockwise (as drawn) round the origin. */
export function turned([x, y]: Point, degrees: number): Point {
  const c = Math.cos(rad(degrees));
  const s = Math.sin(rad(degrees));
  return [x * c - y * s, x * s + y * c];
}

/** An upright box as a mark, from its corner and its size. */
export const rect = (x: number, y: number, width: number, height: number, style: Style): Mark => ({
  op: 'line',
  closed: true,
  points: [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ],
  style,
});

const centred = (text: string, size: number, ink: Ink, at: Point = [0, 0]): Mark => ({
  op: 'text',
  at,
  text,
  size,
  face: 'sans',
  bold: true,
  ink,
  align: 'centre',
  vertical: 'middle',
});

/** Half the base of the jack's triangle, and its height. */
const JACK = { half: 1.9, height: 3.2 } as const;

/**
 * The trade's triangle with its jack count. Centred on the triangle's middle; at turn 0 it stands on its base.
 * On a ceiling it lies in a ring, in a floor box in a square; poles and casework say so by their mount letter.
 */
export function jackSymbol(count: number, ink: Ink, mount: Outlet['mount'], turn = 0): Mark[] {
  const { half, height } = JACK;
  // The triangle's centroid lies a third above the base; the drawing is centred between that and mid-height.
  const corners: Point[] = [
    [0, -height * 0.58],
    [half, height * 0.42],
    [-half, height * 0.42],
  ];
  const marks: Mark[] = [];
  if (mount === 'ceiling')
    marks.push({
      op: 'circle',
      at: [0, 0],
      radius: 2.45,
      style: { stroke: ink, width: THIN, fill: 'paper' },
    });
  if (mount === 'floor')
    marks.push(rect(-2.3, -2.3, 4.6, 4.6, { stroke: ink, width: THIN, fill: 'paper' }));
  marks.push({
    op: 'line',
    closed: true,
    points: corners.map((p) => turned(p, turn)),
    style: { fill: ink, stroke: ink, width: HAIR },
  });
  marks.push(
    centred(String(count), count > 9 ? 1.5 : 2, 'paper', turned([0, height * 0.13], turn)),
  );
  return marks;
}

/** Letter of the way an outlet is mounted, written after its height. */
export const MOUNT_LETTER: Readonly<Record<Outlet['mount'], string>> = {
  wall: 'W',
  ceiling: 'C',
  pole: 'P',
  casework: 'K',
  floor: 'F',
};

/** A power outlet: a ring with two bars. */
export const powerSymbol = (): Mark[] => [
  {
    op: 'circle',
    at: [0, 0],
    radius: 1.35,
    style: { stroke: 'ink', width: THIN, fill: 'paper' },
  },
  {
    op: 'line',
    points: [
      [-0.45, -1.95],
      [-0.45, 1.95],
    ],
    style: { stroke: 'ink', width: THIN },
  },
  {
    op: 'line',
    points: [
      [0.45, -1.95],
      [0.45, 1.95],
    ],
    style: { stroke: 'ink', width: THIN },
  },
];
export const POWER_REACH = 2;

/** The network closet: a solid square with its letters. */
export const closetSymbol = (): Mark[] => [
  rect(-3.2, -2.6, 6.4, 5.2, { fill: 'cable', stroke: 'ink', width: MEDIUM }),
  centred('NC', 3, 'paper'),
];

/** A riser: an arrow in a ring, up where it goes up from this level, down where it comes from below. */
export const riserSymbol = (up: boolean): Mark[] => {
  const s = up ? 1 : -1;
  return [
    {
      op: 'circle',
      at: [0, 0],
      radius: 2.1,
      style: { stroke: 'ink', width: MEDIUM, fill: 'paper' },
    },
    {
      op: 'line',
      points: [
        [0, 1.3 * s],
        [0, -0.6 * s],
      ],
      style: { stroke: 'ink', width: 0.5 },
    },
    {
      op: 'line',
      closed: true,
      points: [
        [0, -1.5 * s],
        [0.9, -0.2 * s],
        [-0.9, -0.2 * s],
      ],
      style: { fill: 'ink' },
    },
  ];
};
export const RISER_REACH = 2.3;

/** A place that runs are made to pass: an eyelet on the cable, with its number where there are several. */
export function pinSymbol(number = ''): Mark[] {
  const marks: Mark[] = [
    {
      op: 'circle',
      at: [0, 0],
      radius: 1.15,
      style: { stroke: 'cable', width: 0.45, fill: 'paper' },
    },
  ];
  if (number === '')
    marks.push({ op: 'circle', at: [0, 0], radius: 0.4, style: { fill: 'cable' } });
  else marks.push(centred(number, number.length > 1 ? 1.3 : 1.7, 'cable'));
  return marks;
}
export const PIN_REACH = 1.5;

const CROSSING_LETTER: Readonly<Record<CrossingWork, string>> = {
  none: '',
  sleeve: 'S',
  core: 'C',
  seal: 'P',
};

/**
 * A hole for cables in a wall: a ring with S for a sleeve, C for a core drilled hole, P for a panel or outside wall
 * whose hole is sealed; in a fire-rated wall a solid diamond, F alone where nothing but the firestop is to be done.
 */
export function crossingSymbol(work: CrossingWork, firestop: boolean): Mark[] {
  const letter = CROSSING_LETTER[work] || (firestop ? 'F' : '');
  if (letter === '') return [];
  if (!firestop)
    return [
      {
        op: 'circle',
        at: [0, 0],
        radius: 1.45,
        style: { fill: 'paper', stroke: 'ink', width: 0.3 },
      },
      centred(letter, 2, 'ink'),
    ];
  const r = 2.1;
  return [
    {
      op: 'line',
      closed: true,
      points: [
        [0, -r],
        [r, 0],
        [0, r],
        [-r, 0],
      ],
      style: { fill: 'warn', stroke: 'paper', width: 0.3 },
    },
    centred(letter, 2, 'paper'),
  ];
}
export const CROSSING_REACH = 2.25;

/** The number of cables on a shared way: a small ring, longer when a letter or more digits need it. */
export function countBadge(text: string, width: number, ink: Ink): Mark[] {
  const r = BADGE_HEIGHT / 2;
  const half = Math.max(r, width / 2 + 0.75);
  const style: Style = { stroke: ink, width: THIN, fill: 'paper' };
  const shape: Mark =
    half - r < 0.15
      ? { op: 'circle', at: [0, 0], radius: r, style }
      : { op: 'line', closed: true, points: pill(half, r), style };
  return [shape, centred(text, BADGE_SIZE, ink)];
}
export const BADGE_HEIGHT = 3.5;
export const BADGE_SIZE = 2.1;

/** The outline of a bar with round ends. */
function pill(half: number, r: number): Point[] {
  const points: Point[] = [];
  for (let i = 0; i <= 8; i++) {
    const a = rad(-90 + (180 * i) / 8);
    points.push([half - r + r * Math.cos(a), r * Math.sin(a)]);
  }
  for (let i = 0; i <= 8; i++) {
    const a = rad(90 + (180 * i) / 8);
    points.push([-(half - r) + r * Math.cos(a), r * Math.sin(a)]);
  }
  return points;
}

/** A finding on the plan: a solid bar-ended triangle with its sign, the wider the worse. */
export function findingSymbol(severity: 'error' | 'warning' | 'note'): Mark[] {
  const ink: Ink = severity === 'note' ? 'soft' : 'warn';
  const shape: Mark =
    severity === 'error'
      ? {
          op: 'line',
          closed: true,
          points: [22.5, 67.5, 112.5, 157.5, 202.5, 247.5, 292.5, 337.5].map((a) =>
            turned([2, 0], a),
          ),
          style: { fill: ink, stroke: 'paper', width: 0.3 },
        }
      : {
          op: 'circle',
          at: [0, 0],
          radius: 1.7,
          style: { fill: 'warn-paper', stroke: ink, width: MEDIUM },
        };
  return [
    shape,
    centred(severity === 'note' ? 'i' : '!', 2.6, severity === 'error' ? 'paper' : ink),
  ];
}
export const FINDING_REACH = 2.1;

/** The north arrow, 6 mm in radius. @param north degrees clockwise from the top of the drawing */
export function northArrow(north: number): Mark[] {
  const at = (x: number, y: number): Point => turned([x, y], north);
  return [
    { op: 'circle', at: [0, 0], radius: 4.6, style: { stroke: 'ink', width: THIN } },
    {
      op: 'line',
      closed: true,
      points: [at(0, -5.6), at(1.9, 3.4), at(0, 2.2)],
      style: { fill: 'ink', stroke: 'ink', width: HAIR },
    },
    {
      op: 'line',
      closed: true,
      points: [at(0, -5.6), at(0, 2.2), at(-1.9, 3.4)],
      style: { fill: 'paper', stroke: 'ink', width: HAIR },
    },
    centred('N', 3.4, 'ink', at(0, -7.6)),
  ];
}
export const NORTH_REACH = 9;

const BAR_STEPS_FT = [0.25, 0.5, 1, 2, 4, 5, 8, 10, 20, 40, 50, 100, 200];
const BAR_STEPS_M = [0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50, 100];

export interface ScaleBar {
  readonly marks: Mark[];
  /** The length on paper, mm, and the length in the building that it stands for, mm. */
  readonly width: number;
  readonly length: number;
}

/**
 * A scale bar of four divisions in the job's units, from its left end at the origin; 5 mm high with its figures.
 *
 * @param scale paper mm for one mm of the building
 * @param room the most that it may be long on paper, mm
 */
export function scaleBar(scale: number, units: Units, room: number): ScaleBar {
  const unit = units === 'ft' ? FOOT : METRE;
  const steps = units === 'ft' ? BAR_STEPS_FT : BAR_STEPS_M;
  const step = steps.findLast((s) => 4 * s * unit * scale <= room) ?? steps[0]!;
  const part = step * unit * scale;
  const marks: Mark[] = [];
  for (let i = 0; i < 4; i++)
    marks.push(
      rect(i * part, 0, part, 1.3, {
        stroke: 'ink',
        width: HAIR,
        fill: i % 2 === 0 ? 'ink' : 'paper',
      }),
    );
  for (const i of [0, 1, 2, 4])
    marks.push({
      op: 'text',
      at: [i * part, 3.7],
      text: i === 4 ? `${4 * step} ${units}` : String(i * step),
      size: 2.2,
      ink: 'ink',
      align: 'centre',
    });
  return { marks, width: 4 * part, length: 4 * step * unit };
}

/** Side of the square that proves the print's size: 2 in. exactly, or 50 mm. */
export const checkSide = (units: Units): number => (units === 'ft' ? 2 * INCH : 50);

/** The check square from its upper left corner: a fine frame with ticks at its corners, measured line to line. */
export function checkSquare(units: Units): Mark[] {
  const side = checkSide(units);
  const marks: Mark[] = [rect(0, 0, side, side, { stroke: 'ink', width: HAIR })];
  const tick = 2.5;
  for (const x of [0, side])
    for (const y of [0, side]) {
      const sx = x === 0 ? 1 : -1;
      const sy = y === 0 ? 1 : -1;
      marks.push({
        op: 'line',
        points: [
          [x + sx * tick, y],
          [x, y],
          [x, y + sy * tick],
        ],
        style: { stroke: 'ink', width: 0.5 },
      });
    }
  return marks;
}
