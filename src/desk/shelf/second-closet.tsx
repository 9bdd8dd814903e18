import { useMemo, useSyncExternalStore } from 'react';
import { renderMessage } from '../../base/message.ts';
import { closetWords } from '../../results/closet-words.ts';
import type { ClosetGain } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { isOld } from '../closet-asking.ts';
import { useActions, useDesk, usePlan, useUnits } from '../context.tsx';
import { Button, Section } from '../controls/parts.tsx';
import type { StudiedClosets } from '../services.ts';
import { viewOn } from '../show.ts';

/** Asks what one more closet would do, says it, and places it. */
export function SecondCloset() {
  const { closetAsking } = useDesk();
  const asked = useSyncExternalStore(closetAsking.subscribe, closetAsking.getState);
  const { state } = asked;
  const words = { idle: 'second.ask', busy: 'second.busy', failed: 'second.again' } as const;
  return (
    <Section title={t('second.title')}>
      <p className="note">{t('second.hint')}</p>
      <div aria-live="polite">
        {asked.state === 'failed' ? (
          <p className="said said-off">{t('second.failed', { reason: asked.reason })}</p>
        ) : null}
        {asked.state === 'done' ? <Found found={asked.found} /> : null}
      </div>
      <Button
        disabled={state === 'busy'}
        aria-busy={state === 'busy'}
        onClick={() => void closetAsking.ask()}
      >
        {t(state === 'done' ? 'second.again' : words[state])}
      </Button>
    </Section>
  );
}

function Found({ found }: { found: StudiedClosets }) {
  const { plan, study } = found;
  const units = useUnits();
  const now = usePlan();
  const old = useMemo(() => isOld(found, now), [found, now]);
  return (
    <div className="second-closet">
      {old ? <p className="said said-off">{t('second.old')}</p> : null}
      {closetWords(plan, study).map((message) => (
        <p key={message.text}>{renderMessage(message, units)}</p>
      ))}
      {study.best ? <Gain gain={study.best} /> : null}
    </div>
  );
}

function Gain({ gain: { level, at, height } }: { gain: ClosetGain }) {
  const { session } = useDesk();
  const actions = useActions();
  const there = usePlan().tables.levels.has(level);
  const show = () => {
    const { viewport, freePart } = session.getState();
    actions.set({ level, viewport: viewOn(viewport, [at], freePart()) });
  };
  return (
    <div className="button-row">
      <Button disabled={!there} onClick={show}>
        {t('second.show')}
      </Button>
      <Button
        disabled={!there}
        onClick={() => {
          show();
          actions.run('place-closet', { level, at, height });
        }}
      >
        {t('second.place')}
      </Button>
    </div>
  );
}
