import { useState } from 'react';
import { formatScale, parseScale, USUAL_SCALES } from '../../base/drawing-scale.ts';
import { formatLength, INCH, type Units } from '../../base/units.ts';
import type { SessionApi } from '../../board/session.ts';
import { type Background, job } from '../../plan/plan.ts';
import { isDrawnOn } from '../../plan/scale-drawn.ts';
import { t } from '../../text/index.ts';
import { Segments } from '../controls/choices.tsx';
import { readLength } from '../controls/fields.tsx';
import { ask, Dialog } from './dialog.tsx';
import { Follow, ScaleFoot } from './scale-parts.tsx';
import { TypedLine } from './typed-line.tsx';

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
        <TypedLine
          first
          label={t('scale.printed')}
          text={text}
          example={formatScale(USUAL_SCALES[units][2]!, units)}
          usual={USUAL_SCALES[units].map((usual) => formatScale(usual, units))}
          echo={ratio === null ? '' : t('length.echo', { length: `1:${figure(ratio, 1)}` })}
          hint={t('scale.hint')}
          why={tried && ratio === null ? t('scale.wrong') : null}
          onType={setText}
        />
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
            <TypedLine
              unseen
              label={t(size === 'width' ? 'scale.width' : 'scale.dots')}
              text={sheet}
              example={size === 'dots' ? '300' : units === 'ft' ? '36"' : '841 mm'}
              echo={paper === null ? '' : t('length.echo', { length: sheetWords(paper, units) })}
              hint={
                size === 'dots' && dots !== null
                  ? t('scale.dots-said', { dots: figure(dots, 0) })
                  : t('scale.sheet-hint')
              }
              why={tried && paper === null ? t('scale.sheet-wrong') : null}
              onType={setSheet}
            />
          </>
        ) : null}
        <output className="note">{wide === null ? '' : t('scale.so', { wide })}</output>
        {drawn ? <Follow follow={follow} onChange={setFollow} /> : null}
        <ScaleFoot go={t('length.set.go')} onLeave={() => answer(null)} />
      </form>
    </Dialog>
  );
}
