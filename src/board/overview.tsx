import { type PointerEvent, useMemo } from 'react';
import { useStore } from 'zustand';
import { onLevel, type Plan } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import type { SessionApi, Viewport } from './session.ts';
import { shownPlan } from './session.ts';
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

/** Walls and rooms of a level as one path, px of the map. */
function pathOf(plan: Plan, level: string, { scale, left, top }: Fit): string {
  const at = ([x, y]: readonly [number, number]) =>
    `${((x - left) * scale).toFixed(1)} ${((y - top) * scale).toFixed(1)}`;
  const walls = onLevel(plan, 'walls', level).map(({ a, b }) => `M${at(a)}L${at(b)}`);
  const rooms = onLevel(plan, 'zones', level).map(
    ({ outline }) => `M${outline.map(at).join('L')}Z`,
  );
  return [...walls, ...rooms].join('');
}

/** Whether a part of an extent lies outside of what is seen. */
function cutOff(
  { x0, y0, x1, y1 }: Extent,
  { left, top, width, height, scale }: Viewport,
): boolean {
  return x0 < left || y0 < top || x1 > left + width / scale || y1 > top + height / scale;
}

/** A small map of the level with the part that is seen; pressing or dragging on it goes there. */
export function Overview({ session }: { session: SessionApi }) {
  const on = useStore(session, (s) => s.shown.overview);
  const plan = useStore(session, shownPlan);
  const level = useStore(session, (s) => s.level);
  const view = useStore(session, (s) => s.viewport);
  const extent = useMemo(() => (on ? planExtent(plan, level) : null), [on, plan, level]);
  const drawn = useMemo(() => {
    if (!extent) return null;
    const fit = fitOf(extent);
    return { fit, path: pathOf(plan, level, fit) };
  }, [plan, level, extent]);
  if (!extent || !drawn || !cutOff(extent, view)) return null;
  const { scale, left, top } = drawn.fit;
  const go = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    centreOn(session, [
      left + (event.clientX - box.left) / scale,
      top + (event.clientY - box.top) / scale,
    ]);
  };
  return (
    <svg
      className="board-overview"
      width={WIDTH}
      height={HEIGHT}
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
      <path className="board-overview-plan" d={drawn.path} />
      <rect
        className="board-overview-view"
        x={(view.left - left) * scale}
        y={(view.top - top) * scale}
        width={(view.width / view.scale) * scale}
        height={(view.height / view.scale) * scale}
      />
    </svg>
  );
}
