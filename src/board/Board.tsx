import { useEffect, useId, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { t } from '../text/index.ts';
import { BoardBar } from './board-bar.tsx';
import { BoardCanvas } from './canvas/BoardCanvas.tsx';
import type { BoardTheme } from './canvas/paint-board.ts';
import type { PictureSource } from './canvas/pictures.ts';
import type { MenuRequest } from './canvas/pointers.ts';
import { createEditor } from './create-editor.ts';
import type { Editor, LengthAnswer, LengthRequest, StraightenRequest } from './editor.ts';
import { followPicture } from './follow-picture.ts';
import { createKeys, type Keys } from './keys.ts';
import { Overview } from './overview.tsx';
import { type SessionApi, toBoard } from './session.ts';
import './board.css';

export interface BoardProps {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly pictures: PictureSource;
  /**
   * Asks for the real length of a line drawn on a background, mm; null when the user thinks better of it.
   *
   * @param along where the line is on the page now, px
   */
  onAskLength(
    request: LengthRequest,
    along: () => readonly [Point, Point],
  ): Promise<LengthAnswer | null>;
  /** Makes a photo upright by four corners that were set on it. */
  onStraighten(request: StraightenRequest): void;
  /** A menu was asked for: by the right button, a long press, or the menu key. */
  onMenu(request: MenuRequest): void;
  /** By itself the page's `data-theme`, or the device's. */
  readonly theme?: BoardTheme;
}

/** The drawing surface. */
export function Board(props: BoardProps) {
  const { session, kinds, pictures, theme } = props;
  const asked = useRef(props);
  asked.current = props;
  const section = useRef<HTMLElement>(null);
  const [parts, setParts] = useState<{ editor: Editor; keys: Keys } | null>(null);
  useEffect(() => {
    const editor = createEditor(session, kinds, {
      finger: matchMedia('(pointer: coarse)').matches,
      askLength: (request) => {
        const onPage = (at: Point): Point => {
          const { left, top } = section.current!.getBoundingClientRect();
          const [x, y] = toBoard(session.getState().viewport, at);
          return [left + x, top + y];
        };
        return asked.current.onAskLength(request, () => [onPage(request.a), onPage(request.b)]);
      },
      straighten: (request) => asked.current.onStraighten(request),
    });
    setParts({ editor, keys: createKeys(session, editor, kinds) });
    const stop = followPicture(session);
    return () => {
      stop();
      editor.dispose();
      setParts(null);
    };
  }, [session, kinds]);
  const worn = useTheme();
  if (!parts) return <section className="board" aria-label={t('board.drawing')} />;
  return (
    <Surface
      {...parts}
      section={section}
      session={session}
      kinds={kinds}
      pictures={pictures}
      onMenu={(request) => asked.current.onMenu(request)}
      theme={theme ?? worn}
    />
  );
}

interface SurfaceProps {
  readonly section: React.RefObject<HTMLElement | null>;
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly editor: Editor;
  readonly keys: Keys;
  readonly pictures: PictureSource;
  readonly theme: BoardTheme;
  onMenu(request: MenuRequest): void;
}

function Surface(props: SurfaceProps) {
  const { session, editor, keys, section } = props;
  const hint = useId();
  useKeys(section, props);
  const cursor = useSyncExternalStore(editor.subscribe, () => editor.view().tool.cursor);
  return (
    <section className="board" aria-label={t('board.drawing')} ref={section} data-cursor={cursor}>
      <div
        className="board-surface"
        role="application"
        aria-label={t('board.plan')}
        aria-describedby={hint}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a drawing is worked on with keys of its own
        tabIndex={0}
      >
        <BoardCanvas {...props} keys={keys} />
      </div>
      <Overview session={session} />
      <BoardBar session={session} editor={editor} hint={hint} />
    </section>
  );
}

/** Elements that have an "all" of their own: what is typed in them, or their words. */
const OWN_ALL = 'input, textarea, select, [contenteditable], dialog, [role=dialog]';
/** Elements that keep their keys for themselves. */
const OWN_KEYS = `${OWN_ALL}, [role=menu], [role=listbox], [role=grid], [role=treegrid], [role=tree], [role=tablist], [role=radiogroup]`;

function useKeys(section: React.RefObject<HTMLElement | null>, props: SurfaceProps) {
  const latest = useRef(props);
  latest.current = props;
  const onKey = useMemo(
    () => (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.isComposing || event.altKey) return;
      const ctrl = event.ctrlKey || event.metaKey;
      let target = event.target instanceof Element ? event.target : null;
      // All means all that is drawn, wherever the focus was left; the browser would mark every word of the desk.
      if (ctrl && event.key.toLowerCase() === 'a' && !target?.closest(OWN_ALL)) {
        target = section.current?.querySelector<HTMLElement>('.board-surface') ?? null;
        (target as HTMLElement | null)?.focus();
      }
      if (target?.closest(OWN_KEYS)) return;
      const { keys, session, editor, onMenu } = latest.current;
      const here = target === document.body || target?.closest('.board-surface') != null;
      if (here && (event.key === 'ContextMenu' || (event.key === 'F10' && event.shiftKey))) {
        event.preventDefault();
        onMenu(menuForKeys(section.current!, session, editor, keys));
        return;
      }
      if (keys.press({ key: event.key, shift: event.shiftKey, ctrl }, here)) event.preventDefault();
    },
    [section],
  );
  useEffect(() => {
    const forget = () => latest.current.keys.forget();
    window.addEventListener('keydown', onKey);
    window.addEventListener('blur', forget);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('blur', forget);
    };
  }, [onKey]);
}

/** A menu asked for by a key: at the cursor, or in the middle of the board, for what is selected. */
function menuForKeys(
  section: HTMLElement,
  session: SessionApi,
  editor: Editor,
  keys: Keys,
): MenuRequest {
  const { viewport, selection } = session.getState();
  const { scale, left, top, width, height } = viewport;
  const at = keys.cursor() ?? [left + width / 2 / scale, top + height / 2 / scale];
  const box = section.getBoundingClientRect();
  const x = (at[0] - left) * scale;
  const y = (at[1] - top) * scale;
  const refs = selection.length > 0 ? selection : editor.hit(at, false);
  return { x, y, clientX: box.left + x, clientY: box.top + y, at, refs };
}

const pageTheme = (): BoardTheme => {
  const said = document.documentElement.dataset.theme;
  if (said === 'light' || said === 'dark') return said;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
};

/** The theme that the page wears. */
function useTheme(): BoardTheme {
  return useSyncExternalStore(watchTheme, pageTheme, () => 'light');
}

function watchTheme(changed: () => void): () => void {
  const device = matchMedia('(prefers-color-scheme: dark)');
  const page = new MutationObserver(changed);
  page.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  device.addEventListener('change', changed);
  return () => {
    page.disconnect();
    device.removeEventListener('change', changed);
  };
}
