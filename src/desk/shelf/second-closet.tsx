import { useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import { closetWords } from '../../results/closet-words.ts';
import type { ClosetGain } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useUnits } from '../context.tsx';
import { Button, Section } from '../controls/parts.tsx';
import type { StudiedClosets } from '../services.ts';
import { viewOn } from '../show.ts';

type Asked =
  | { readonly state: 'idle' | 'busy' }
  | { readonly state: 'failed'; readonly reason: string }
  | { readonly state: 'done'; readonly found: StudiedClosets };

/** Asks what one more closet would do, says it, and places it. */
export function SecondCloset() {
  const { services } = useDesk();
  const [asked, setAsked] = useState<Asked>({ state: 'idle' });
  const ask = async () => {
    setAsked({ state: 'busy' });
    try {
      setAsked({ state: 'done', found: await services.studyClosets() });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      setAsked({ state: 'failed', reason });
    }
  };
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
      <Button disabled={state === 'busy'} aria-busy={state === 'busy'} onClick={() => void ask()}>
        {t(state === 'done' ? 'second.again' : words[state])}
      </Button>
    </Section>
  );
}

function Found({ found: { plan, study } }: { found: StudiedClosets }) {
  const units = useUnits();
  const now = usePlan();
  return (
    <div className="second-closet">
      {now === plan ? null : <p className="said said-off">{t('second.old')}</p>}
      {closetWords(plan, study).map((message) => (
        <p key={message.text}>{renderMessage(message, units)}</p>
      ))}
      {study.best ? <Gain gain={study.best} /> : null}
    </div>
  );
}

function Gain({ gain: { level, at } }: { gain: ClosetGain }) {
  const { session } = useDesk();
  const actions = useActions();
  const there = usePlan().tables.levels.has(level);
  const show = () => {
    const { viewport } = session.getState();
    actions.set({ level, viewport: viewOn(viewport, [at]) });
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
          actions.run('place-closet', { level, at });
        }}
      >
        {t('second.place')}
      </Button>
    </div>
  );
}
