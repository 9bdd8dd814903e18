import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { msg } from '../base/message.ts';
import type { Leg } from '../board/session.ts';
import { job } from '../plan/plan.ts';
import { formatClock, t } from '../text/index.ts';
import { useActions, usePlan, useSession } from './context.tsx';
import { type LegFigure, legFigures } from './leg-figures.ts';

/** The tape along the top: the job, and how it stands in seven figures. */
export function JobLine({
  pages,
  onLeg,
  menu,
}: {
  pages: number | null;
  onLeg(leg: Leg): void;
  menu: ReactNode;
}) {
  const plan = usePlan();
  const survey = useSession((s) => s.survey);
  const current = useSession((s) => s.leg);
  const figures = useMemo(() => legFigures({ plan, survey, pages }), [plan, survey, pages]);
  return (
    <header className="job-line">
      <h1 className="unseen">{t('app.title', { job: job(plan).name })}</h1>
      <div className="job-head">
        <JobName />
        <p className="job-state">
          <KeptWords />
        </p>
      </div>
      <nav className="legs" aria-label={t('legs.label')}>
        <ol>
          {figures.map((figure) => (
            <li key={figure.leg}>
              <LegButton figure={figure} current={figure.leg === current} onLeg={onLeg} />
            </li>
          ))}
        </ol>
      </nav>
      {menu}
    </header>
  );
}

function LegButton({
  figure,
  current,
  onLeg,
}: {
  figure: LegFigure;
  current: boolean;
  onLeg(leg: Leg): void;
}) {
  const button = useRef<HTMLButtonElement>(null);
  // On a narrow screen the legs scroll: the open one stays in sight.
  useEffect(() => {
    if (current) button.current?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [current]);
  return (
    <button
      ref={button}
      type="button"
      className={`leg leg-${figure.tone}`}
      aria-current={current ? 'step' : undefined}
      onClick={() => onLeg(figure.leg)}
    >
      <span className="leg-name">{figure.name}</span>
      <span className="leg-figure">{figure.figure}</span>
    </button>
  );
}

/** The job's name, changed where it stands. */
function JobName() {
  const actions = useActions();
  const name = useSession((s) => job(s.history.plan).name);
  const [text, setText] = useState<string | null>(null);
  const commit = () => {
    const next = text?.trim();
    // What is too long stays as it was typed, to be shortened.
    if (next && next.length > 400) return actions.say(msg(t('job.name-long')), 'warning');
    setText(null);
    if (next && next !== name)
      actions.run('edit', { table: 'job', id: 'job', fields: { name: next } });
  };
  return (
    <input
      className="job-name"
      aria-label={t('job.name')}
      value={text ?? name}
      autoComplete="off"
      onChange={(event) => setText(event.currentTarget.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key === 'Escape') setText(null);
      }}
    />
  );
}

/** Where the job is kept, and whether that worked. */
function KeptWords() {
  const kept = useSession((s) => s.kept);
  if (kept.state === 'failed') return <strong className="kept-failed">{t('kept.failed')}</strong>;
  if (kept.state === 'saving') return <>{t('kept.saving')}</>;
  if (kept.at === null) return <>{t('kept.here')}</>;
  return <>{t('kept.saved', { time: formatClock(kept.at) })}</>;
}
