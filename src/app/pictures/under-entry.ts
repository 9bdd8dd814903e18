import { findWalls } from '../../geometry/wall-finder/find-walls.ts';
import { packPage, placePage } from './page-placed.ts';
import { readSvgLines } from './svg-lines.ts';
import type { UnderAnswer, UnderAsk } from './under-protocol.ts';

/** Reads what a page draws, away from the screen: large ones hold a hundred thousand lines. */
function answer({ page, place, walls }: UnderAsk): UnderAnswer {
  try {
    const read = 'svg' in page ? readSvgLines(page.svg) : null;
    const packed = 'svg' in page ? read && packPage(read) : page;
    if (!packed) return { failed: 'the SVG is not well formed' };
    const { lines, drawn } = placePage(packed, place);
    return { lines, found: walls ? findWalls(drawn) : null };
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}

addEventListener('message', (event: MessageEvent<UnderAsk>) => {
  postMessage(answer(event.data));
});
