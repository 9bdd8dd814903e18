import { describe, expect, it } from 'vitest';
import type { AreaInk } from '../../../src/drawing/display.ts';
import { PALETTES, type Theme } from '../../../src/drawing/palette.ts';
import { OVER_PICTURE } from '../../../src/drawing/room-marks.ts';

const THEMES: readonly Theme[] = ['paper', 'light', 'dark'];
const AREAS = [0, 1, 2, 3, 4, 5, 6, 7] as const satisfies readonly AreaInk[];

type Rgb = readonly [number, number, number];

/** Linear light of a colour, by the sRGB transfer curve (IEC 61966-2-1). */
function linear(colour: string): Rgb {
  const part = (i: number): number => {
    const c = Number.parseInt(colour.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

const luminance = (colour: string): number => {
  const [r, g, b] = linear(colour);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

/** Contrast ratio, WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

/** A colour painted over another with some opacity. */
const over = (top: string, under: string, opacity: number): string => {
  const part = (colour: string, i: number) => Number.parseInt(colour.slice(i, i + 2), 16);
  const mixed = [1, 3, 5].map((i) => part(top, i) * opacity + part(under, i) * (1 - opacity));
  return `#${mixed.map((v) => Math.round(v).toString(16).padStart(2, '0')).join('')}`;
};

/** What people without red, green or blue cones see: Machado, Oliveira and Fernandes 2009, severity 1. */
const SIGHT: Readonly<Record<string, readonly number[]>> = {
  full: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  protan: [
    0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998,
  ],
  deutan: [
    0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881,
  ],
  tritan: [
    1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039,
  ],
};

/** Lightness and two opponent axes of a linear colour (Ottosson 2020), so that distances mean something to the eye. */
function perceived([r, g, b]: Rgb): Rgb {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function seenBy(sight: readonly number[], colour: string): Rgb {
  const c = linear(colour);
  const row = (i: number): number =>
    Math.min(1, Math.max(0, sight[i]! * c[0] + sight[i + 1]! * c[1] + sight[i + 2]! * c[2]));
  return perceived([row(0), row(3), row(6)]);
}

describe('palettes', () => {
  it.each(THEMES)('%s: every area ink reads on its tint and on the paper (4.5 : 1)', (theme) => {
    const palette = PALETTES[theme];
    for (const area of AREAS) {
      const ink = palette[`area-${area}`];
      expect(contrast(ink, palette[`tint-${area}`]), `area ${area}`).toBeGreaterThanOrEqual(4.5);
      expect(contrast(ink, palette.paper), `area ${area}`).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each(THEMES)('%s: words, cable and warnings read on paper and on every tint', (theme) => {
    const palette = PALETTES[theme];
    for (const ink of ['ink', 'soft', 'cable'] as const)
      for (const area of AREAS)
        expect(contrast(palette[ink], palette[`tint-${area}`]), ink).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.warn, palette['warn-paper'])).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.paper, palette.cable)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(THEMES)(
    '%s: an area over a picture is a tint that its own ink and words read on',
    (theme) => {
      const palette = PALETTES[theme];
      for (const area of AREAS) {
        const fill = over(palette[`area-${area}`], palette.paper, OVER_PICTURE);
        expect(fill, `area ${area}`).not.toBe(palette.paper);
        for (const ink of [`area-${area}`, 'ink', 'soft', 'cable'] as const)
          expect(contrast(palette[ink], fill), `${ink} on ${area}`).toBeGreaterThanOrEqual(4.5);
      }
    },
  );

  it.each(THEMES)('%s: any two area inks stay apart for every kind of colour sight', (theme) => {
    for (const [name, sight] of Object.entries(SIGHT))
      for (const a of AREAS)
        for (const b of AREAS) {
          if (a >= b) continue;
          const [p, q] = [a, b].map((n) =>
            seenBy(sight, PALETTES[theme][`area-${n as AreaInk}`]),
          ) as [Rgb, Rgb];
          const apart = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
          // A just noticeable difference is about 0.02 on this scale.
          expect(apart, `${name} ${a} ${b}`).toBeGreaterThan(0.05);
        }
  });

  it('keeps tints lighter than anything that is drawn on them when printed in grey', () => {
    for (const area of AREAS) {
      expect(luminance(PALETTES.paper[`tint-${area}`])).toBeGreaterThan(0.82);
      expect(luminance(PALETTES.paper[`area-${area}`])).toBeLessThan(0.2);
    }
  });
});
