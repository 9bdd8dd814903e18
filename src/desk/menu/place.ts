/** Where something stands on the screen, px. */
export interface Spot {
  readonly left: number;
  readonly top: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Air to the edges of the screen, px. */
const AIR = 8;

/**
 * Where a menu of a size stands: to the right of what it was asked for at, else to the left of it, so that it is not
 * under the hand; where neither has room, wherever it fits.
 */
export function besideFinger(
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
  { width, height }: Size,
  screen: Size,
): Spot {
  const most = screen.width - width - AIR;
  const left = clientX > most && clientX - width >= AIR ? clientX - width : clientX;
  return {
    left: Math.max(AIR, Math.min(left, most)),
    top: Math.max(AIR, Math.min(clientY, screen.height - height - AIR)),
  };
}
