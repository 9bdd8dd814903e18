import type { Part } from '../../drawing/display.ts';
import { fitPixels } from '../../worker/picture-size.ts';
import { svgSize } from './svg-lines.ts';
import { trouble } from './trouble.ts';
import { readXml } from './xml.ts';

/** Pixels that the longer side of a drawing counts as, at least. */
const SIDE = 4000;

export interface OpenSvg {
  /** As how many pixels the drawing counts, and how wide it is on paper, mm, where it says so. */
  readonly size: { readonly width: number; readonly height: number; readonly paper: number | null };
  /** Draws a part of it on white, so many pixels wide and high. */
  draw(part: Part, size: { readonly width: number; readonly height: number }): Promise<ImageBitmap>;
  close(): void;
}

/** Opens an SVG; throws `Trouble` for one that cannot be drawn. Scripts in it do not run, and nothing is fetched for it. */
export async function openSvg(name: string, blob: Blob): Promise<OpenSvg> {
  const damaged = (): never =>
    trouble('“{name}” is damaged: its SVG cannot be drawn. Bring another copy of it, or a PDF.', {
      name,
    });
  const text = await blob.text();
  const root = readXml(text);
  const natural = root ? svgSize(root) : damaged();
  if (!(natural.width > 0 && natural.height > 0)) damaged();
  const grow = Math.max(1, SIDE / Math.max(natural.width, natural.height));
  const size = fitPixels(natural.width * grow, natural.height * grow);
  // With a size of its own the browser draws it as vectors at any scale, whatever its view box says.
  const address = URL.createObjectURL(
    new Blob([sized(text, natural.width, natural.height)], { type: 'image/svg+xml' }),
  );
  const image = new Image();
  image.src = address;
  await image.decode().catch(() => {
    URL.revokeObjectURL(address);
    damaged();
  });
  return {
    size: { ...size, paper: natural.paper },
    async draw(part, { width, height }) {
      const canvas = new OffscreenCanvas(width, height);
      const context = canvas.getContext('2d', { alpha: false });
      if (!context) throw new Error('this browser has no room for a drawing of that size');
      context.fillStyle = '#ffffff';
      context.fillRect(0, 0, width, height);
      const [w, h] = [width / (part.x1 - part.x0), height / (part.y1 - part.y0)];
      context.drawImage(image, -part.x0 * w, -part.y0 * h, w, h);
      return canvas.transferToImageBitmap();
    },
    close: () => URL.revokeObjectURL(address),
  };
}

/** The text of an SVG with its size in pixels; one without a view box gets that of its size. */
function sized(text: string, width: number, height: number): string {
  return text.replace(/<((?:svg:)?svg)\b((?:"[^"]*"|'[^']*'|[^"'>])*)>/, (_, name, attributes) => {
    const kept = String(attributes).replace(/\s(?:width|height)\s*=\s*(?:"[^"]*"|'[^']*')/g, '');
    const box = /\sviewBox\s*=/.test(kept) ? '' : ` viewBox="0 0 ${width} ${height}"`;
    const end = kept.trimEnd().endsWith('/') ? '/' : '';
    const open = end ? kept.trimEnd().slice(0, -1) : kept;
    return `<${name}${open}${box} width="${width}" height="${height}"${end}>`;
  });
}
