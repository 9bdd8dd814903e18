import type { Ink } from './display.ts';

/**
 * The colours of the inks, in one place: paper in a printer, and the screen by day and by night.
 *
 * Tints of the eight areas are the eight colours of Okabe and Ito (Color Universal Design, 2008), thinned; their inks
 * are darker neighbours, chosen so that every pair stays apart for people without red, green or blue cones and every
 * ink reads on its own tint (WCAG 2.2 AA, 4.5 : 1). Printed in grey the inks are dark and the tints nearly white,
 * and every area carries its letter.
 */
export type Theme = 'paper' | 'light' | 'dark';
export type Palette = Readonly<Record<Ink, string>>;

const AREA_INKS = {
  'area-0': '#760a08',
  'area-1': '#074e63',
  'area-2': '#a11f95',
  'area-3': '#0d64bf',
  'area-4': '#6d4e30',
  'area-5': '#351b3b',
  'area-6': '#687001',
  'area-7': '#21067b',
} as const;

const TINTS = {
  'tint-0': '#fbeee6',
  'tint-1': '#e6f4f0',
  'tint-2': '#f8eef4',
  'tint-3': '#eaf4fb',
  'tint-4': '#fcf2e0',
  'tint-5': '#f0f1f2',
  'tint-6': '#fbf9de',
  'tint-7': '#e6eff6',
} as const;

const paper: Palette = {
  ink: '#17212a',
  soft: '#4d5964',
  faint: '#b4bcc3',
  paper: '#ffffff',
  desk: '#f4f2ec',
  wall: '#56626c',
  'wall-rated': '#17212a',
  cable: '#2457a6',
  pathway: '#6f7b86',
  loop: '#8f6b14',
  vertical: '#66717c',
  pick: '#c4421c',
  good: '#1f7a5c',
  warn: '#8c3f1d',
  'warn-paper': '#fdf1ea',
  ...AREA_INKS,
  ...TINTS,
};

const light: Palette = {
  ...paper,
  paper: '#fdfcf9',
  faint: '#c3c9ce',
  wall: '#3a4650',
  loop: '#c9a24a',
  vertical: '#7d8894',
  pick: '#e2572b',
};

const dark: Palette = {
  ink: '#eef1f3',
  soft: '#aeb8c1',
  faint: '#55616c',
  paper: '#18212a',
  desk: '#10171e',
  wall: '#c2cad1',
  'wall-rated': '#eef1f3',
  cable: '#7fb0f5',
  pathway: '#8d99a4',
  loop: '#d9b663',
  vertical: '#97a2ad',
  pick: '#ff8a5e',
  good: '#5cc7a0',
  warn: '#f3a27d',
  'warn-paper': '#3a241a',
  'area-0': '#f08162',
  'area-1': '#3beba2',
  'area-2': '#ddc5f8',
  'area-3': '#6fb3d0',
  'area-4': '#f2bc18',
  'area-5': '#bdfcee',
  'area-6': '#f1f764',
  'area-7': '#a58cff',
  'tint-0': '#30241f',
  'tint-1': '#17302c',
  'tint-2': '#2c2430',
  'tint-3': '#1a2c3a',
  'tint-4': '#302a1d',
  'tint-5': '#232c35',
  'tint-6': '#2d2e1f',
  'tint-7': '#20263e',
};

export const PALETTES: Readonly<Record<Theme, Palette>> = { paper, light, dark };
