import type { Point } from '../geometry/point.ts';

/**
 * The display list: what symbols, layers and sheets draw with, and what the board's canvas and the PDF writer read.
 *
 * Plain data. On a sheet the unit is a paper millimetre; in a symbol too, round its own origin, so that symbols keep
 * their size at any scale; in a layer of the board it is a millimetre of the building. x right, y down.
 */

/** Names of inks; a palette gives them colours, so that screen (light, dark) and paper differ in one place. */
export type Ink =
  | 'ink'
  | 'soft'
  | 'faint'
  | 'paper'
  | 'desk'
  | 'wall'
  | 'wall-rated'
  | 'cable'
  | 'pathway'
  | 'loop'
  | 'vertical'
  | 'pick'
  | 'good'
  | 'warn'
  | 'warn-paper'
  | `area-${AreaInk}`
  | `tint-${AreaInk}`;

/** Areas take one of eight inks, told apart by colour-blind people, and always show their letter too. */
export type AreaInk = 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7;

/** The ink of a service area: by its letter. */
export const areaInk = (letter: string): AreaInk =>
  ((((letter.charCodeAt(0) - 65) % 8) + 8) % 8) as AreaInk;

export type Hatch = 'diagonal' | 'cross' | 'dots';

export interface Style {
  readonly stroke?: Ink;
  /** Line width in paper mm, whatever the unit of the list. */
  readonly width?: number;
  /** Dash lengths in paper mm. */
  readonly dash?: readonly number[];
  readonly fill?: Ink;
  /** Lines over the fill, in the stroke's ink. */
  readonly hatch?: Hatch;
  readonly opacity?: number;
}

/** Any mark may hang on a row of the plan, by its key, as a label and a leader do: it is put away while that moves. */
export type Mark = { readonly of?: string } & Shape;

type Shape =
  | {
      readonly op: 'line';
      readonly points: readonly Point[];
      readonly closed?: boolean;
      readonly style: Style;
    }
  | { readonly op: 'circle'; readonly at: Point; readonly radius: number; readonly style: Style }
  | {
      readonly op: 'text';
      readonly at: Point;
      readonly text: string;
      /** Height of the type in paper mm (its em), whatever the unit of the list. */
      readonly size: number;
      readonly face?: 'sans' | 'mono';
      readonly bold?: boolean;
      readonly ink: Ink;
      readonly align?: 'left' | 'centre' | 'right';
      /** Where `at` is: on the baseline, or in the middle of the capitals. */
      readonly vertical?: 'baseline' | 'middle';
      /** Degrees clockwise. */
      readonly turn?: number;
      /** Drawn behind the letters so that they can be read over lines. */
      readonly halo?: Ink;
    }
  | {
      /** A symbol: marks in paper mm round `at`. */
      readonly op: 'symbol';
      readonly at: Point;
      readonly turn?: number;
      /** The plan's row that it stands for, by its key, where the symbol may stand aside from the row's own place. */
      readonly row?: string;
      readonly marks: readonly Mark[];
    }
  | {
      /** A part with its own unit: `scale` outer units for one inner unit, moved to `at`; `clip` is in inner units. */
      readonly op: 'group';
      readonly at: Point;
      readonly scale: number;
      readonly clip?: readonly Point[];
      readonly marks: readonly Mark[];
      /** Name of the layer in a PDF reader. */
      readonly layer?: string;
    }
  | {
      /**
       * A picture by its key. `width` × `height` in list units before the turn; `at` is the upper left corner of what
       * is seen after it. It is then tilted about its middle, and only its `part` is shown.
       */
      readonly op: 'picture';
      readonly at: Point;
      readonly width: number;
      readonly height: number;
      readonly turn: 0 | 90 | 180 | 270;
      /** Degrees clockwise, after the turn. */
      readonly tilt?: number;
      readonly part?: Part;
      readonly opacity: number;
      /** It keeps its colours on a dark screen. */
      readonly photo?: true;
      /** The hash of its bytes, and after a `#` its page where that is not the first. */
      readonly asset: string;
    };

/** A part of a picture, in shares of its own width and height: 0 left and top, 1 right and bottom. */
export interface Part {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** All of a picture. */
export const WHOLE: Part = { x0: 0, y0: 0, x1: 1, y1: 1 };

/** The key of a picture in a display list; whoever draws takes it apart again with `pictureOf`. */
export const pictureKey = (asset: string, page: number): string =>
  page === 1 ? asset : `${asset}#${page}`;

/** The hash and the page in the key of a picture. */
export function pictureOf(key: string): { readonly asset: string; readonly page: number } {
  const [asset, page] = key.split('#');
  return { asset: asset!, page: page === undefined ? 1 : Number(page) };
}

/** How wide a text is, in the unit of `size`; the fonts' own widths, so that screen, paper and tests agree. */
export interface TextMeasure {
  width(text: string, size: number, face: 'sans' | 'mono', bold: boolean): number;
}
