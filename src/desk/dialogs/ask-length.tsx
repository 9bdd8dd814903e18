import { useState } from 'react';
import { formatLength, type Units } from '../../base/units.ts';
import type { LengthAnswer } from '../../board/index.ts';
import type { SessionApi } from '../../board/session.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { job } from '../../plan/plan.ts';
import { isDrawnOn } from '../../plan/scale-drawn.ts';
import { t } from '../../text/index.ts';
import { Segments } from '../controls/choices.tsx';
import { readLength } from '../controls/fields.tsx';
import { Button } from '../controls/parts.tsx';
import { ask, Dialog } from './dialog.tsx';

/** A line that was drawn along a known length, in plan mm as the scale stands now. */
export interface LengthQuestion {
  readonly for: 'set-scale' | 'check-scale';
  readonly a: Point;
  readonly b: Point;
}

/** Asks for the real length of a line; null when they think better of it. */
export function askLength(
  session: SessionApi,
  question: LengthQuestion,
): Promise<LengthAnswer | null> {
  const { history, level } = session.getState();
  const { units } = job(history.plan);
  const drawn = question.for === 'set-scale' && isDrawnOn(history.plan, level);
  return ask<LengthAnswer | null>((answer) => (
    <LengthDialog question={question} units={units} drawn={drawn} answer={answer} />
  ));
}

/** What happens to what is drawn already, when the scale changes. */
export function Follow({ follow, onChange }: { follow: boolean; onChange(on: boolean): void }) {
  return (
    <>
      <Segments
        label={t('follow.label')}
        value={follow ? 'follow' : 'keep'}
        options={[
          { value: 'keep', label: t('follow.keep') },
          { value: 'follow', label: t('follow.follow') },
        ]}
        onChoose={(value) => onChange(value === 'follow')}
      />
      <p className="field-hint">{t(follow ? 'follow.follow-hint' : 'follow.keep-hint')}</p>
    </>
  );
}

function LengthDialog({
  question,
  units,
  drawn,
  answer,
}: {
  question: LengthQuestion;
  units: Units;
  drawn: boolean;
  answer(answer: LengthAnswer | null): void;
}) {
  const [text, setText] = useState('');
  const [why, setWhy] = useState<string | null>(null);
  const setting = question.for === 'set-scale';
  const [follow, setFollow] = useState(false);
  const measured = formatLength(distance(question.a, question.b), units);
  const reading = readLength(text, units, 1);
  const echo = 'value' in reading ? formatLength(reading.value, units, 4) : '';
  return (
    <Dialog
      title={t(setting ? 'length.set.title' : 'length.check.title')}
      onShut={() => answer(null)}
    >
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if ('value' in reading) answer({ length: reading.value, follow });
          else setWhy(reading.why);
        }}
      >
        <p>{setting ? t('length.set.words') : t('length.check.words', { drawn: measured })}</p>
        <label className="length-label" htmlFor="real-length">
          {t('length.real')}
        </label>
        <div className="length-line">
          <input
            id="real-length"
            className="field-input length-input"
            data-first
            autoComplete="off"
            placeholder={t(units === 'ft' ? 'length.example-ft' : 'length.example-m')}
            value={text}
            aria-invalid={why !== null}
            aria-describedby="real-length-words"
            onChange={(event) => {
              setText(event.currentTarget.value);
              setWhy(null);
            }}
          />
          <output className="length-echo">{echo ? t('length.echo', { length: echo }) : ''}</output>
        </div>
        <p id="real-length-words" className={why ? 'field-why' : 'field-hint'}>
          {why ?? t(setting ? 'length.set.hint' : 'length.check.hint')}
        </p>
        {drawn ? <Follow follow={follow} onChange={setFollow} /> : null}
        <footer className="dialog-foot">
          <span className="grow" />
          <Button onClick={() => answer(null)}>{t('length.leave')}</Button>
          <Button look="main" type="submit">
            {t(setting ? 'length.set.go' : 'length.check.go')}
          </Button>
        </footer>
      </form>
    </Dialog>
  );
}
