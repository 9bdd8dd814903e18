import Konva from 'konva/lib/Core';
import { type RefObject, useEffect, useState } from 'react';
import type { SessionApi } from '../session.ts';
import { planExtent, resized } from '../view.ts';
import type { Layers } from './layers.ts';

/** More pixels than this per CSS pixel cost time and show nothing more. */
const MOST_RATIO = 2;

/** The size of the board in whole px. Its canvases stay as sharp as the screen is, and its view keeps what was seen. */
export function useBoardSize(
  host: RefObject<HTMLElement | null>,
  session: SessionApi,
  layers: Layers,
): { readonly width: number; readonly height: number } {
  const [size, setSize] = useState({ width: 0, height: 0 });

  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const observer = new ResizeObserver(() => {
      const width = Math.round(element.clientWidth);
      const height = Math.round(element.clientHeight);
      const ratio = Math.min(MOST_RATIO, window.devicePixelRatio || 1);
      // Layers that are there keep the ratio that they were made with, unless they are told: a zoomed page changes it.
      if (ratio !== Konva.pixelRatio) {
        Konva.pixelRatio = ratio;
        layers.drawing?.getCanvas().setPixelRatio(ratio);
        layers.top?.getCanvas().setPixelRatio(ratio);
        layers.anew();
      }
      setSize({ width, height });
    });
    observer.observe(element);
    // A browser that took a canvas away for a while gives it back empty.
    element.addEventListener('contextrestored', layers.anew, true);
    return () => {
      observer.disconnect();
      element.removeEventListener('contextrestored', layers.anew, true);
    };
  }, [host, layers]);

  useEffect(() => {
    // A board that has no room for now, as over a keyboard on the glass, keeps what it showed.
    if (size.width === 0 || size.height === 0) return;
    const { viewport, level, history, actions } = session.getState();
    const { width, height } = viewport;
    if (width !== size.width || height !== size.height)
      actions.set({ viewport: resized(viewport, size, planExtent(history.plan, level)) });
    layers.anew();
  }, [size, session, layers]);

  return size;
}
