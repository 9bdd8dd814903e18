import { useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { formatLength, type Units } from '../../base/units.ts';
import type { LengthAnswer } from '../../board/index.ts';
import type { SessionApi } from '../../board/session.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { job } from '../../plan/plan.ts';
import { isDrawnOn } from '../../plan/scale-drawn.ts';
import { t } from '../../text/index.ts';
import { readLength } from '../controls/fields.tsx';
import type { ScreenLine } from './clear-of.ts';
import { ask, Dialog } from './dialog.tsx';
import { Follow, ScaleFoot } from './scale-parts.tsx';
import { TypedLine } from './typed-line.tsx';

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
  /** Where its line is on the screen now. */
  along: () => ScreenLine,
): Promise<LengthAnswer | null> {
  const { history, level } = session.getState();
  const { units } = job(history.plan);
  const drawn = question.for === 'set-scale' && isDrawnOn(history.plan, level);
  return ask<LengthAnswer | null>((answer) => (
    <LengthDialog {...{ session, question, along, units, drawn, answer }} />
  ));
}

function LengthDialog({
  session,
  question,
  along,
  units,
  drawn,
  answer,
}: {
  session: SessionApi;
  question: LengthQuestion;
  along(): ScreenLine;
  units: Units;
  drawn: boolean;
  answer(answer: LengthAnswer | null): void;
}) {
  // The drawing moves under the question where a keyboard on the glass takes room from it.
  const view = useStore(session, (s) => s.viewport);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the line is where the view has it
  const line = useMemo(along, [view]);
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
      along={line}
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
        <TypedLine
          first
          label={t('length.real')}
          text={text}
          example={t(units === 'ft' ? 'length.example-ft' : 'length.example-m')}
          echo={echo ? t('length.echo', { length: echo }) : ''}
          hint={t(setting ? 'length.set.hint' : 'length.check.hint')}
          why={why}
          onType={(typed) => {
            setText(typed);
            setWhy(null);
          }}
        />
        {drawn ? <Follow follow={follow} onChange={setFollow} /> : null}
        <ScaleFoot
          go={t(setting ? 'length.set.go' : 'length.check.go')}
          onLeave={() => answer(null)}
        />
      </form>
    </Dialog>
  );
}
