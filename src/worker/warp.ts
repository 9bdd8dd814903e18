/** Pixels as a canvas gives them: red, green, blue and opacity of each, row by row. */
export interface Pixels {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

/**
 * Draws a picture anew through a map between planes, each pixel mixed from the four nearest of the picture; what lies
 * beyond the picture is white.
 *
 * @param map [a b c d e f g h] that takes a pixel of `to` to one of `from`: x' = (a x + b y + c) / (g x + h y + 1)
 */
export function warp(from: Pixels, to: Pixels, map: readonly number[]): void {
  const [a, b, c, d, e, f, g, h] = map as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const { data, width, height } = from;
  let i = 0;
  for (let row = 0; row < to.height; row++) {
    const y = row + 0.5;
    for (let column = 0; column < to.width; column++, i += 4) {
      const x = column + 0.5;
      const w = g * x + h * y + 1;
      // Pixels are dots in the middle of their squares.
      const u = (a * x + b * y + c) / w - 0.5;
      const v = (d * x + e * y + f) / w - 0.5;
      to.data[i + 3] = 255;
      if (!(u > -1 && v > -1 && u < width && v < height)) {
        to.data[i] = to.data[i + 1] = to.data[i + 2] = 255;
        continue;
      }
      const u0 = Math.floor(u);
      const v0 = Math.floor(v);
      const left = Math.max(0, u0);
      const right = Math.min(width - 1, u0 + 1);
      const up = Math.max(0, v0) * width;
      const down = Math.min(height - 1, v0 + 1) * width;
      const s = u - u0;
      const t = v - v0;
      for (let k = 0; k < 3; k++) {
        const over = data[4 * (up + left) + k]! * (1 - s) + data[4 * (up + right) + k]! * s;
        const under = data[4 * (down + left) + k]! * (1 - s) + data[4 * (down + right) + k]! * s;
        to.data[i + k] = over * (1 - t) + under * t;
      }
    }
  }
}
