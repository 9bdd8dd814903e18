import { useState, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { formatScale, parseScale } from '../base/drawing-scale.ts';
import { msg, renderMessage } from '../base/message.ts';
import { job } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import type { Editor } from './editor.ts';
import type { SessionApi } from './session.ts';
import { fitPlan, fitSelection, ratioOf, zoomBy, zoomToRatio } from './view.ts';

/** The strip at the foot of the board: what to do next, typed lengths and ends of chains for fingers, zoom. */
export function BoardBar({
  session,
  editor,
  hint,
}: {
  session: SessionApi;
  editor: Editor;
  hint: string;
}) {
  const units = useStore(session, (s) => job(s.history.plan).units);
  const view = useSyncExternalStore(editor.subscribe, () => barOf(editor, units));
  const [words, busy, measuring, drawing, ending] = view.split('\n') as [
    string,
    string,
    string,
    string,
    string,
  ];
  return (
    <div className="board-bar" data-drawing={drawing}>
      <p className="board-hint" id={hint} role="status">
        {words}
      </p>
      {measuring === 'yes' ? <LengthField editor={editor} /> : null}
      {busy === 'yes' ? (
        <>
          {ending === 'yes' ? (
            <button type="button" onClick={() => editor.key('Enter')}>
              {t('board.finish')}
            </button>
          ) : null}
          <button type="button" onClick={() => editor.cancel()}>
            {t('board.drop')}
          </button>
        </>
      ) : drawing === 'yes' ? (
        <button type="button" onClick={() => editor.cancel()}>
          {t('board.done')}
        </button>
      ) : null}
      <span className="board-zoom">
        <HandSwitch session={session} />
        <button type="button" aria-label={t('board.farther')} onClick={() => zoomBy(session, 0.8)}>
          −
        </button>
        <button type="button" className="board-fit" onClick={() => fitPlan(session)}>
          {t('board.fit')}
        </button>
        <FitSelection session={session} />
        <ScaleField session={session} units={units} />
        <button type="button" aria-label={t('board.closer')} onClick={() => zoomBy(session, 1.25)}>
          +
        </button>
      </span>
    </div>
  );
}

/** Whether a finger moves the drawing and nothing on it; a mouse has its middle button and the space bar for that. */
function HandSwitch({ session }: { session: SessionApi }) {
  const tool = useStore(session, (s) => s.tool);
  if (tool !== 'select' && tool !== 'pan') return null;
  return (
    <button
      type="button"
      className="board-hand"
      aria-pressed={tool === 'pan'}
      title={t('board.hand-title')}
      onClick={() => session.getState().actions.pick(tool === 'pan' ? 'select' : 'pan')}
    >
      {t('board.hand')}
    </button>
  );
}

function FitSelection({ session }: { session: SessionApi }) {
  const any = useStore(session, (s) => s.selection.length > 0);
  return (
    <button
      type="button"
      className="board-picked"
      disabled={!any}
      aria-label={t('board.to-selection')}
      title={t('board.to-selection')}
      onClick={() => fitSelection(session)}
    >
      {t('board.fit-selection')}
    </button>
  );
}

/** The scale of what is seen, on a screen of 96 px an inch; typing another goes to it. */
function ScaleField({ session, units }: { session: SessionApi; units: 'ft' | 'm' }) {
  const scale = useStore(session, (s) => s.viewport.scale);
  const [text, setText] = useState<string | null>(null);
  const shown = formatScale(ratioOf(scale), units);
  const commit = () => {
    const ratio = text === null ? null : parseScale(text);
    setText(null);
    if (ratio !== null) zoomToRatio(session, ratio);
    else if (text !== null && text.trim() !== '' && text !== shown)
      session
        .getState()
        .actions.say(
          msg('"{typed}" is not a scale. Type it as 1:100 or 1/8" = 1\'-0".', { typed: text }),
          'warning',
        );
  };
  return (
    <input
      className="board-scale"
      aria-label={t('board.scale')}
      title={t('board.scale')}
      value={text ?? shown}
      size={12}
      autoComplete="off"
      onFocus={(event) => event.currentTarget.select()}
      onChange={(event) => setText(event.currentTarget.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key === 'Escape') setText(null);
      }}
    />
  );
}

/** What the bar shows, as one string, so that it is drawn anew only when it reads differently. */
function barOf(editor: Editor, units: 'ft' | 'm'): string {
  const { tool, hint, busy, measuring, stand } = editor.view();
  const yes = (on: boolean) => (on ? 'yes' : 'no');
  return [
    renderMessage(hint, units),
    yes(busy && tool.id !== 'select' && tool.id !== 'pan'),
    yes((measuring && busy && tool.id !== 'select') || stand !== null),
    yes(tool.id !== 'select' && tool.id !== 'pan'),
    yes(tool.ends !== false),
  ].join('\n');
}

function LengthField({ editor }: { editor: Editor }) {
  const [text, setText] = useState('');
  return (
    <form
      className="board-length"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== '') editor.typeLength(text);
        setText('');
      }}
    >
      <label>
        <span>{t('board.length')}</span>
        <input
          aria-label={t('board.length')}
          value={text}
          size={8}
          placeholder={t('board.length')}
          autoComplete="off"
          onChange={(event) => setText(event.currentTarget.value)}
        />
      </label>
    </form>
  );
}
