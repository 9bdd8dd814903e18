import { useEffect, useState } from 'react';
import type { Leg, Session } from '../../board/session.ts';
import { t } from '../../text/index.ts';
import { useDesk, useSession } from '../context.tsx';
import { ICONS } from '../controls/icons.tsx';
import { Ladder } from './index.tsx';

/** Legs on which the drawing is made: there the ladder waits as a line, so that it never rises under the hand. */
const MAKING: readonly Leg[] = ['base', 'rooms', 'devices'];

const hasRuns = ({ history }: Pick<Session, 'history'>): boolean =>
  history.plan.tables.jacks.size > 0;

/**
 * Whether the ladder stands open: from the start where a job has runs, else from the first leg that reads them; and as
 * somebody likes it from then on. `none` while there is nothing to stand on it.
 */
export function useLadder(): readonly [open: boolean | 'none', (open: boolean) => void] {
  const { session } = useDesk();
  const runs = useSession(hasRuns);
  const [open, setOpen] = useState(() => hasRuns(session.getState()));
  useEffect(() => {
    let risen = hasRuns(session.getState());
    return session.subscribe((now, before) => {
      const any = hasRuns(now);
      if (now.opened !== before.opened) {
        risen = any;
        setOpen(any);
      } else if (any && !risen && !MAKING.includes(now.leg)) {
        risen = true;
        setOpen(true);
      }
    });
  }, [session]);
  return [runs ? open : 'none', setOpen];
}

/** The length ladder with the button that folds it; a line with a word while it is empty. */
export function LadderFrame({
  open,
  drawnOut,
  onOpen,
}: {
  open: boolean | 'none';
  /** It is drawn out over a narrow screen, where it does not fold. */
  drawnOut: boolean;
  onOpen(open: boolean): void;
}) {
  if (open === 'none')
    return (
      <section className="ladder-frame" aria-label={t('ladder.title')}>
        <h2 className="ladder-title">{t('ladder.title')}</h2>
        <p className="ladder-none">{t('ladder.none')}</p>
      </section>
    );
  return (
    <div className="ladder-frame">
      <button
        type="button"
        className="ladder-toggle"
        aria-expanded={open}
        onClick={() => onOpen(!open)}
      >
        {ICONS.bars}
        {t(open ? 'ladder.fold' : 'ladder.open')}
      </button>
      {open || drawnOut ? <Ladder /> : null}
    </div>
  );
}
