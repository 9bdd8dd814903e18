/** A canvas as the reader of PDFs holds it while it draws. */
interface Entry {
  canvas: OffscreenCanvas | null;
  context: OffscreenCanvasRenderingContext2D | null;
}

/** Where pages are drawn without a document: pdfjs asks for its canvases by these names. */
export class WorkerCanvases {
  create(width: number, height: number): Entry {
    const canvas = new OffscreenCanvas(width, height);
    // Masks and groups are read back, which is slow from a graphics card.
    return { canvas, context: canvas.getContext('2d', { willReadFrequently: true }) };
  }

  reset({ canvas }: Entry, width: number, height: number): void {
    if (!canvas) throw new Error('a canvas was used after its end');
    canvas.width = width;
    canvas.height = height;
  }

  destroy(entry: Entry): void {
    if (entry.canvas) entry.canvas.width = entry.canvas.height = 0;
    entry.canvas = null;
    entry.context = null;
  }

  getNoAlphaContext(canvas: OffscreenCanvas): OffscreenCanvasRenderingContext2D | null {
    return canvas.getContext('2d', { alpha: false, willReadFrequently: true });
  }
}

const none = (): string => 'none';

/** Filters need elements of a document; where there is none, pdfjs draws without them, as its own worker does. */
export class NoFilters {
  addFilter = none;
  addHCMFilter = none;
  addAlphaFilter = none;
  addLuminosityFilter = none;
  addKnockoutFilter = none;
  addHighlightHCMFilter = none;
  addSelectionHCMFilter = none;
  addSelectionFilter = none;
  createSelectionStyle = (): null => null;
  destroy(): void {}
}
