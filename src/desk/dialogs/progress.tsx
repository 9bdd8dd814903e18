import { createRoot, type Root } from 'react-dom/client';
import { t } from '../../text/index.ts';
import { Button } from '../controls/parts.tsx';

/** Something long that is under way. */
export interface ShownProgress {
  /** Aborted when somebody pressed stop. */
  readonly signal: AbortSignal;
  /** Tells how far it is, 0 to 1. */
  progress(share: number): void;
  /** It has ended, one way or the other. */
  done(): void;
}

/**
 * Shows how far something long is, with a button that stops it, beside what else goes on: nothing waits for it.
 *
 * @param after how long it may take before it is shown, ms
 */
export function showProgress(words: string, after: number): ShownProgress {
  const stop = new AbortController();
  let share = 0;
  let root: Root | null = null;
  const place = document.createElement('div');
  const draw = () =>
    root?.render(
      <div className="progress" role="status">
        <p>{words}</p>
        <progress max={100} value={Math.round(share * 100)} aria-label={words} />
        <Button onClick={() => stop.abort()}>{t('progress.stop')}</Button>
      </div>,
    );
  const timer = setTimeout(() => {
    document.body.append(place);
    root = createRoot(place);
    draw();
  }, after);
  return {
    signal: stop.signal,
    progress(now) {
      share = now;
      draw();
    },
    done() {
      clearTimeout(timer);
      root?.unmount();
      root = null;
      place.remove();
    },
  };
}
