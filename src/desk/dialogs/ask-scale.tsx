import { useState } from 'react';
import { formatScale, parseScale, USUAL_SCALES } from '../../base/drawing-scale.ts';
import { formatLength, INCH, type Units } from '../../base/units.ts';
import type { SessionApi } from '../../board/session.ts';
import { type Background, job } from '../../plan/plan.ts';
import { isDrawnOn } from '../../plan/scale-drawn.ts';
import { t } from '../../text/index.ts';
import { Segments } from '../controls/choices.tsx';
import { readLength } from '../controls/fields.tsx';
import { Button } from '../controls/parts.tsx';
import { Follow } from './ask-length.tsx';
import { ask, Dialog } from './dialog.tsx';

/** A printed scale, and how wide the sheet is. */
export interface ScaleAnswer {
  readonly ratio: number;
  readonly paper: number;
  readonly follow: boolean;
}

/** Asks for the scale that is printed on a background, and for the size of its sheet where that is not known. */
export function askScale(session: SessionApi, picture: Background): Promise<ScaleAnswer | null> {
  const { plan } = session.getState().history;
  const drawn = isDrawnOn(plan, picture.level);
  return ask<ScaleAnswer | null>((answer) => (
    <ScaleDialog picture={picture} units={job(plan).units} drawn={drawn} answer={answer} />
  ));
}

type Size = 'width' | 'dots';

/** How wide a picture is on paper by what was typed; null where that is no size. */
function paperOf(picture: Background, size: Size, text: string, units: Units): number | null {
  if (size === 'dots') {
    const dots = Number(text.replace(/\s*(?:dpi|ppi)?\s*$/i, ''));
    return dots >= 10 && dots <= 5000 ? (picture.width / dots) * INCH : null;
  }
  // A bare number is inches here, or millimetres: nobody measures paper in feet.
  const bare = /^\s*\d+(?:\.\d+)?\s*$/.test(text);
  const reading = readLength(bare ? `${text}${units === 'ft' ? '"' : 'mm'}` : text, units, 1);
  return 'value' in reading && reading.value <= 20_000 ? reading.value : null;
}

const figure = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

const sheetWords = (mm: number, units: Units): string =>
  units === 'ft' ? `${figure(mm / INCH, 2)} in.` : `${figure(mm, 0)} mm`;

function ScaleDialog({
  picture,
  units,
  drawn,
  answer,
}: {
  picture: Background;
  units: Units;
  drawn: boolean;
  answer(scale: ScaleAnswer | null): void;
}) {
  const [text, setText] = useState('');
  const { dots } = picture;
  // What the file says of itself is offered, to be looked at.
  const [size, setSize] = useState<Size>(dots === null ? 'width' : 'dots');
  const [sheet, setSheet] = useState(dots === null ? '' : figure(dots, 0));
  const [other, setOther] = useState(picture.paper === null);
  const [follow, setFollow] = useState(false);
  const [tried, setTried] = useState(false);
  const ratio = parseScale(text);
  const paper = other ? paperOf(picture, size, sheet, units) : picture.paper;
  const wide = ratio !== null && paper !== null ? formatLength(ratio * paper, units) : null;
  return (
    <Dialog title={t('scale.title')} onShut={() => answer(null)}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (ratio !== null && paper !== null) answer({ ratio, paper, follow });
          else setTried(true);
        }}
      >
        <label className="length-label" htmlFor="printed-scale">
          {t('scale.printed')}
        </label>
        <div className="length-line">
          <input
            id="printed-scale"
            className="field-input length-input"
            data-first
            autoComplete="off"
            list="usual-scales"
            placeholder={formatScale(USUAL_SCALES[units][2]!, units)}
            value={text}
            aria-invalid={tried && ratio === null}
            aria-describedby="printed-scale-words"
            onChange={(event) => setText(event.currentTarget.value)}
          />
          <datalist id="usual-scales">
            {USUAL_SCALES[units].map((usual) => (
              <option key={usual} value={formatScale(usual, units)} />
            ))}
          </datalist>
          <output className="length-echo">
            {ratio === null ? '' : t('length.echo', { length: `1:${figure(ratio, 1)}` })}
          </output>
        </div>
        <p
          id="printed-scale-words"
          className={tried && ratio === null ? 'field-why' : 'field-hint'}
        >
          {tried && ratio === null ? t('scale.wrong') : t('scale.hint')}
        </p>
        {picture.paper === null ? null : (
          <Segments
            label={t('scale.sheet')}
            value={other ? 'other' : 'known'}
            options={[
              {
                value: 'known',
                label: t('scale.known', { width: sheetWords(picture.paper, units) }),
              },
              { value: 'other', label: t('scale.another') },
            ]}
            onChoose={(value) => setOther(value === 'other')}
          />
        )}
        {other ? (
          <>
            <Segments<Size>
              label={t('scale.by')}
              value={size}
              options={[
                { value: 'width', label: t('scale.width') },
                { value: 'dots', label: t('scale.dots') },
              ]}
              onChoose={setSize}
            />
            <div className="length-line">
              <input
                className="field-input length-input"
                autoComplete="off"
                aria-label={t(size === 'width' ? 'scale.width' : 'scale.dots')}
                placeholder={size === 'dots' ? '300' : units === 'ft' ? '36"' : '841 mm'}
                value={sheet}
                aria-invalid={tried && paper === null}
                aria-describedby="sheet-words"
                onChange={(event) => setSheet(event.currentTarget.value)}
              />
              <output className="length-echo">
                {paper === null ? '' : t('length.echo', { length: sheetWords(paper, units) })}
              </output>
            </div>
            <p id="sheet-words" className={tried && paper === null ? 'field-why' : 'field-hint'}>
              {tried && paper === null
                ? t('scale.sheet-wrong')
                : size === 'dots' && dots !== null
                  ? t('scale.dots-said', { dots: figure(dots, 0) })
                  : t('scale.sheet-hint')}
            </p>
          </>
        ) : null}
        <output className="note">{wide === null ? '' : t('scale.so', { wide })}</output>
        {drawn ? <Follow follow={follow} onChange={setFollow} /> : null}
        <footer className="dialog-foot">
          <span className="grow" />
          <Button onClick={() => answer(null)}>{t('length.leave')}</Button>
          <Button look="main" type="submit">
            {t('length.set.go')}
          </Button>
        </footer>
      </form>
    </Dialog>
  );
}
