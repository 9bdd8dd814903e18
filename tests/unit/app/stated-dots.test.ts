import { describe, expect, it } from 'vitest';
import { statedDots } from '../../../src/app/pictures/stated-dots.ts';

const u32 = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];
const u16 = (n: number): number[] => [n >>> 8, n & 255];
const latin = (text: string): number[] => [...text].map((c) => c.charCodeAt(0));

const chunk = (type: string, data: readonly number[]): number[] => [
  ...u32(data.length),
  ...latin(type),
  ...data,
  ...u32(0),
];
const png = (...chunks: number[][]): Uint8Array =>
  new Uint8Array([
    ...[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    ...chunk('IHDR', [...u32(3000), ...u32(2000), 8, 0, 0, 0, 0]),
    ...chunks.flat(),
    ...chunk('IDAT', [1, 2, 3]),
  ]);
const phys = (x: number, y: number, unit: number) => chunk('pHYs', [...u32(x), ...u32(y), unit]);

const segment = (marker: number, data: readonly number[]): number[] => [
  0xff,
  marker,
  ...u16(data.length + 2),
  ...data,
];
const jfif = (unit: number, x: number, y: number) =>
  segment(0xe0, [...latin('JFIF\0'), 1, 2, unit, ...u16(x), ...u16(y), 0, 0]);
const jpeg = (...segments: number[][]): Uint8Array =>
  new Uint8Array([
    ...[0xff, 0xd8],
    ...segments.flat(),
    ...segment(0xdb, Array<number>(65).fill(1)),
    ...segment(0xc2, [8, ...u16(2000), ...u16(3000), 3]),
    ...segment(0xda, [0]),
  ]);

describe('How fine a picture says it is', () => {
  it('stands in the physical dimensions of a PNG, in pixels to the metre', () => {
    // 300 dots per inch are 11,811 to the metre: 300 / 0.0254, rounded.
    const read = statedDots(png(chunk('gAMA', u32(45455)), phys(11811, 11811, 1)));
    expect(read).toMatchObject({ width: 3000, height: 2000 });
    expect(read!.dots).toBeCloseTo(300, 1);
  });

  it('stands in the density of a JFIF, in dots to the inch or to the centimetre', () => {
    expect(statedDots(jpeg(jfif(1, 200, 200)))).toEqual({ width: 3000, height: 2000, dots: 200 });
    expect(statedDots(jpeg(jfif(2, 118, 118)))!.dots).toBeCloseTo(299.7, 1);
  });

  it('is not known where the header says nothing, or no unit', () => {
    expect(statedDots(png())).toBeNull();
    expect(statedDots(png(phys(1, 1, 0)))).toBeNull();
    expect(statedDots(jpeg())).toBeNull();
    expect(statedDots(jpeg(jfif(0, 300, 300)))).toBeNull();
  });

  it('is not believed where it differs across and down, or is the figure of a screen', () => {
    expect(statedDots(png(phys(11811, 5906, 1)))).toBeNull();
    expect(statedDots(jpeg(jfif(1, 72, 72)))).toBeNull();
    expect(statedDots(png(phys(3780, 3780, 1)))).toBeNull();
  });

  it('is not known of a header that is cut short, wherever it is cut', () => {
    for (const whole of [png(phys(11811, 11811, 1)), jpeg(jfif(1, 300, 300))])
      for (let bytes = 0; bytes < whole.length; bytes++)
        expect(() => statedDots(whole.subarray(0, bytes))).not.toThrow();
  });
});
