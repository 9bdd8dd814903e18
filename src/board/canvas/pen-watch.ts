/** A touch broader than this is a hand that rests, px; after a pen was there, it stays one for this long, ms. */
const PALM = 40;
const PEN_NEAR = 1000;

/** Tells the hand that holds a pen from fingers that draw. */
export interface PenWatch {
  /** Whether a touch is the hand that holds the pen: all of them while it writes, broad ones for a moment after. */
  isPalm(event: PointerEvent): boolean;
  came(event: PointerEvent): void;
  moved(event: PointerEvent): void;
  left(event: PointerEvent): void;
}

/** A watch that has seen no pen yet. */
export function createPenWatch(): PenWatch {
  let onGlass: number | null = null;
  let seen = Number.NEGATIVE_INFINITY;
  return {
    isPalm: (event) =>
      event.pointerType === 'touch' &&
      (onGlass !== null ||
        (event.timeStamp - seen < PEN_NEAR && Math.max(event.width, event.height) > PALM)),
    came(event) {
      onGlass = event.pointerId;
    },
    moved(event) {
      seen = event.timeStamp;
    },
    left(event) {
      if (event.pointerId !== onGlass) return;
      onGlass = null;
      seen = event.timeStamp;
    },
  };
}
