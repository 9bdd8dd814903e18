import { useEffect } from 'react';
import type { Part } from '../board/session.ts';
import { useDesk } from './context.tsx';

/** A box on the page, px. */
interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What drawers leave of the board, px from its corner: of the parts beside each, the largest; null where none lies over it. */
export function freePart(board: Box, drawers: readonly Box[]): Part | null {
  let free = board;
  for (const over of drawers) {
    const apart =
      over.right <= free.left ||
      over.left >= free.right ||
      over.bottom <= free.top ||
      over.top >= free.bottom;
    if (apart) continue;
    const beside = [
      { ...free, right: over.left },
      { ...free, left: over.right },
      { ...free, bottom: over.top },
      { ...free, top: over.bottom },
    ];
    free = beside.reduce((best, part) => (area(part) > area(best) ? part : best));
  }
  if (free === board || area(free) === 0) return null;
  const { left, top, right, bottom } = free;
  return {
    left: left - board.left,
    top: top - board.top,
    width: right - left,
    height: bottom - top,
  };
}

const area = ({ left, top, right, bottom }: Box): number =>
  Math.max(0, right - left) * Math.max(0, bottom - top);

/** What the browser answers with cannot be spread. */
function boxOf(element: Element): Box {
  const { left, top, right, bottom } = element.getBoundingClientRect();
  return { left, top, right, bottom };
}

/** Tells the session which part of the board no drawer lies over, whenever it asks. */
export function useFreePart(): void {
  const { session } = useDesk();
  useEffect(() => {
    const boxes = (of: string) => [...document.querySelectorAll(of)].map(boxOf);
    session.getState().actions.set({
      freePart() {
        const [board] = boxes('.board-surface');
        return board ? freePart(board, boxes('.desk > :is(.shelf, .card)')) : null;
      },
    });
  }, [session]);
}
