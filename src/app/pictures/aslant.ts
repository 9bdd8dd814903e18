import type { Asset } from '../../ports/ports.ts';

/** Whether a kept picture is a drawing of lines, not one of dots. */
export const isDrawing = ({ type }: Pick<Asset, 'type'>): boolean =>
  type === 'application/pdf' || type === 'image/svg+xml';

/** Whether a picture of dots does not say how large it is on paper, as a photo of a plan, which may be taken at an angle. */
export const mayBeAslant = (taken: {
  readonly asset: Pick<Asset, 'type'>;
  readonly paper: number | null;
  readonly dots: number | null;
}): boolean => !isDrawing(taken.asset) && taken.paper === null && taken.dots === null;

/** How strong such a picture is shown at first, %: its lines are pale on grey paper. */
export const PALE_STRENGTH = 85;
