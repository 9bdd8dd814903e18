import { type PointerEvent, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { shownCorners } from '../plan/picture-place.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { keepDrags } from './own-touch.ts';
import type { SessionApi, Viewport } from './session.ts';
import { centreOn, type Extent, planExtent } from './view.ts';

/** The size of the map, px, and the air round what it shows. */
const WIDTH = 168;
const HEIGHT = 116;
const AIR = 6;

/** How the level lies on the map: px of it for one mm, and where the extent's corner is. */
interface Fit {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
}

function fitOf({ x0, y0, x1, y1 }: Extent): Fit {
  const scale = Math.min(
    (WIDTH - 2 * AIR) / Math.max(x1 - x0, 1000),
    (HEIGHT - 2 * AIR) / Math.max(y1 - y0, 1000),
  );
  return {
    scale,
    left: (x0 + x1) / 2 - WIDTH / 2 / scale,
    top: (y0 + y1) / 2 - HEIGHT / 2 / scale,
  };
}

/** Walls and rooms of a level and the edges of its pictures as one path, px of the map. */
function pathOf(plan: Plan, level: string, { scale, left, top }: Fit): string {
  const at = ([x, y]: readonly [number, number]) =>
    `${((x - left) * scale).toFixed(1)} ${((y - top) * scale).toFixed(1)}`;
  const walls = onLevel(plan, 'walls', level).map(({ a, b }) => `M${at(a)}L${at(b)}`);
  const rooms = onLevel(plan, 'zones', level).map(
    ({ outline }) => `M${outline.map(at).join('L')}Z`,
  );
  const pictures = onLevel(plan, 'backgrounds', level)
    .filter(({ hidden }) => !hidden)
    .map((picture) => `M${shownCorners(picture).map(at).join('L')}Z`);
  return [...pictures, ...walls, ...rooms].join('');
}

/** Whether a part of an extent lies outside of what is seen. */
function cutOff(
  { x0, y0, x1, y1 }: Extent,
  { left, top, width, height, scale }: Viewport,
): boolean {
  return x0 < left || y0 < top || x1 > left + width / scale || y1 > top + height / scale;
}

/** Lays the frame over the part of the map that is seen; the map is away while all of the level is in sight. */
function placeFrame(
  map: HTMLElement,
  frame: HTMLElement,
  extent: Extent,
  fit: Fit,
  view: Viewport,
) {
  map.hidden = !cutOff(extent, view);
  frame.style.width = `${(view.width / view.scale) * fit.scale}px`;
  frame.style.height = `${(view.height / view.scale) * fit.scale}px`;
  const [x, y] = [(view.left - fit.left) * fit.scale, (view.top - fit.top) * fit.scale];
  frame.style.transform = `translate(${x}px, ${y}px)`;
}

/**
 * A small map of the level with the part that is seen; pressing or dragging on it goes there. React draws the level
 * as it is committed; the frame over it follows the view from a subscription.
 */
export function Overview({ session }: { session: SessionApi }) {
  const on = useStore(session, (s) => s.shown.overview);
  const plan = useStore(session, (s) => s.history.plan);
  const level = useStore(session, (s) => s.level);
  const map = useRef<HTMLDivElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const drawn = useMemo(() => {
    const extent = on ? planExtent(plan, level) : null;
    if (!extent) return null;
    const fit = fitOf(extent);
    return { extent, fit, path: pathOf(plan, level, fit) };
  }, [on, plan, level]);
  useLayoutEffect(() => {
    if (!drawn) return;
    let asked = 0;
    const paint = () => {
      asked = 0;
      const { viewport } = session.getState();
      placeFrame(map.current!, frame.current!, drawn.extent, drawn.fit, viewport);
    };
    paint();
    const stop = session.subscribe((now, before) => {
      if (now.viewport !== before.viewport) asked ||= requestAnimationFrame(paint);
    });
    return () => {
      stop();
      cancelAnimationFrame(asked);
    };
  }, [session, drawn]);
  const seen = drawn !== null;
  useEffect(() => (seen ? keepDrags(map.current!) : undefined), [seen]);
  if (!drawn) return null;
  const go = (event: PointerEvent<HTMLDivElement>) => {
    const { scale, left, top } = drawn.fit;
    const box = event.currentTarget.getBoundingClientRect();
    centreOn(session, [
      left + (event.clientX - box.left) / scale,
      top + (event.clientY - box.top) / scale,
    ]);
  };
  return (
    <div
      ref={map}
      className="board-overview"
      role="img"
      aria-label={t('board.overview')}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        go(event);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) go(event);
      }}
    >
      <svg width={WIDTH} height={HEIGHT} aria-hidden="true">
        <path className="board-overview-plan" d={drawn.path} />
      </svg>
      <div className="board-overview-view" ref={frame} />
    </div>
  );
}
