import Konva from 'konva/lib/Core';
import { useEffect, useRef, useState } from 'react';
import { Layer, Shape, Stage } from 'react-konva/es/ReactKonvaCore';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { Editor } from '../editor.ts';
import type { Keys } from '../keys.ts';
import type { SessionApi, SessionStore } from '../session.ts';
import { createDrawing, type Drawing } from './drawing.ts';
import { createLayers } from './layers.ts';
import type { BoardTheme } from './paint-board.ts';
import { keepPictures, type PictureSource, type Pictures } from './pictures.ts';
import { attachPointers, type MenuRequest } from './pointers.ts';
import { useBoardSize } from './use-board-size.ts';

interface CanvasParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly editor: Editor;
  readonly keys: Keys;
  readonly theme: BoardTheme;
  readonly pictures: PictureSource;
  onMenu(request: MenuRequest): void;
}

/** Whatever of the session the drawing itself is made from. */
const drawingChanged = (a: SessionStore, b: SessionStore): boolean =>
  a.history.plan !== b.history.plan ||
  a.preview !== b.preview ||
  a.survey !== b.survey ||
  a.planes !== b.planes ||
  a.level !== b.level ||
  a.leg !== b.leg ||
  a.shown !== b.shown ||
  a.tool !== b.tool ||
  a.viewport !== b.viewport;

/**
 * Two canvases: the drawing, and what lies over it. React draws them once and when the board changes its size;
 * everything else is painted from subscriptions.
 */
export function BoardCanvas(props: CanvasParts) {
  const { session, kinds, editor, keys, theme } = props;
  const host = useRef<HTMLDivElement>(null);
  const [layers] = useState(createLayers);
  const latest = useRef(props);
  latest.current = props;
  const pointer = useRef<Point | null>(null);
  const finger = useRef<Point | null>(null);
  const pictures = useRef<Pictures | null>(null);
  const drawn = useRef<Drawing | null>(null);
  const size = useBoardSize(host, session, layers);

  layers.board = () => {
    const { theme } = latest.current;
    drawn.current ??= createDrawing(kinds, layers.touch);
    const shown = drawn.current.at(session.getState(), theme, Konva.pixelRatio);
    editor.drawnAt(shown.places);
    return {
      session: session.getState(),
      ...shown,
      editor: editor.view(),
      theme,
      pointer: pointer.current,
      finger: finger.current,
      below: layers.drawing?.getCanvas()._canvas ?? null,
      cursor: keys.cursor(),
      picture: (want) => pictures.current?.get(want) ?? [],
      rulers: layers.rulers,
    };
  };

  useEffect(() => {
    const kept = keepPictures(latest.current.pictures, layers.anew);
    pictures.current = kept;
    const offSession = session.subscribe((now, before) => {
      if (drawingChanged(now, before)) layers.touch();
      else if (now.selection !== before.selection || now.hover !== before.hover) layers.touchTop();
    });
    const offEditor = editor.subscribe(layers.touchTop);
    // The fonts come after the first drawing; letters are measured again with them.
    document.fonts?.ready.then(layers.anew);
    document.fonts?.addEventListener('loadingdone', layers.anew);
    return () => {
      offSession();
      offEditor();
      document.fonts?.removeEventListener('loadingdone', layers.anew);
      kept.dispose();
      drawn.current?.dispose();
      drawn.current = null;
    };
  }, [session, editor, layers]);

  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const detach = attachPointers(element, {
      editor,
      keys,
      session,
      onMenu: (request) => latest.current.onMenu(request),
      onPlace: (at) => {
        pointer.current = at;
        layers.touchTop();
      },
      onFinger: (at) => {
        if (at === finger.current) return;
        finger.current = at;
        layers.touchTop();
      },
      onPan: (panning) => {
        element.dataset.panning = String(panning);
      },
    });
    return detach;
  }, [session, editor, keys, layers]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new theme is a reason to paint
  useEffect(layers.touch, [theme]);

  return (
    <div className="board-canvas" ref={host}>
      {size.width > 0 && size.height > 0 ? (
        <Stage width={size.width} height={size.height} listening={false}>
          <Layer
            ref={(layer) => {
              layers.drawing = layer;
            }}
            listening={false}
            clearBeforeDraw={false}
          >
            <Shape
              listening={false}
              perfectDrawEnabled={false}
              sceneFunc={(context) => layers.paintDrawing(context._context)}
            />
          </Layer>
          <Layer
            ref={(layer) => {
              layers.top = layer;
            }}
            listening={false}
          >
            <Shape
              listening={false}
              perfectDrawEnabled={false}
              sceneFunc={(context) => layers.paintTop(context._context)}
            />
          </Layer>
        </Stage>
      ) : null}
    </div>
  );
}
