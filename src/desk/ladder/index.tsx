import { memo, useCallback, useMemo, useRef, useState } from 'react';
import { formatLength, formatTotal } from '../../base/units.ts';
import type { Survey } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useSession, useUnits } from '../context.tsx';
import { Segments } from '../controls/choices.tsx';
import { List } from './list.tsx';
import { Bars } from './picture.tsx';
import { keepRows, type LadderOrder, type LadderRow, ladderRows, ladderScale } from './rows.ts';

type Form = 'bars' | 'list';

/** Every run against its own limit: as bars, or as a list that says the same. */
export function Ladder() {
  const survey = useSession((s) => s.survey);
  const [order, setOrder] = useState<LadderOrder>('length');
  const [form, setForm] = useState<Form>('bars');
  const toList = useCallback(() => setForm('list'), []);
  const rows = useRows(survey, order);
  return (
    <section className="ladder" aria-label={t('ladder.title')}>
      <header className="ladder-head">
        <h2 className="ladder-title">{t('ladder.title')}</h2>
        <LadderSays survey={survey} rows={rows} />
        <Segments<LadderOrder>
          quiet
          label={t('ladder.order')}
          value={order}
          options={[
            { value: 'length', label: t('ladder.by-length') },
            { value: 'label', label: t('ladder.by-label') },
          ]}
          onChoose={setOrder}
        />
        <Segments<Form>
          quiet
          label={t('ladder.form')}
          value={form}
          options={[
            { value: 'bars', label: t('ladder.bars') },
            { value: 'list', label: t('ladder.list') },
          ]}
          onChoose={setForm}
        />
      </header>
      {rows.length === 0 ? (
        <p className="ladder-none">{t('ladder.measuring')}</p>
      ) : form === 'bars' ? (
        <>
          <Bars rows={rows} onList={toList} />
          <Legend rows={rows} />
        </>
      ) : (
        <List rows={rows} />
      )}
    </section>
  );
}

/** The bars of a survey; those that say the same as before stay the same objects, so that only others are drawn. */
function useRows(survey: Survey | null, order: LadderOrder): readonly LadderRow[] {
  const before = useRef<readonly LadderRow[]>([]);
  return useMemo(() => {
    before.current = keepRows(before.current, ladderRows(survey?.runs ?? [], order));
    return before.current;
  }, [survey, order]);
}

function LadderSays({ survey, rows }: { survey: Survey | null; rows: readonly LadderRow[] }) {
  const units = useUnits();
  if (!survey || rows.length === 0) return <span className="grow" />;
  const near = rows.filter((row) => row.status === 'near').length;
  const over = rows.filter((row) => row.status === 'over').length;
  const lost = rows.filter((row) => row.status === 'unroutable').length;
  return (
    <p className="ladder-says">
      <span>
        {t.count('runs.count', rows.length)}, {formatTotal(survey.totals.cable, units)}
      </span>
      {near > 0 ? (
        <b className="status status-near">▲ {t('ladder.near', { count: near })}</b>
      ) : null}
      {over > 0 ? (
        <b className="status status-over">■ {t('ladder.over', { count: over })}</b>
      ) : null}
      {lost > 0 ? (
        <b className="status status-unroutable">✕ {t('ladder.lost', { count: lost })}</b>
      ) : null}
    </p>
  );
}

const Legend = memo(({ rows }: { rows: readonly LadderRow[] }) => {
  const units = useUnits();
  const { limit, limitInside } = useMemo(() => ladderScale(rows, units), [rows, units]);
  return (
    <ul className="ladder-legend">
      {(['along', 'vertical', 'slack'] as const).map((group) => (
        <li key={group}>
          <span className={`swatch swatch-${group}`} aria-hidden="true" />
          {t(`part.${group}`)}
        </li>
      ))}
      {limit === null ? null : (
        <li className="legend-limit">
          {limitInside
            ? t('ladder.limit', { limit: formatLength(limit, units) })
            : t('ladder.limit-above', { limit: formatLength(limit, units) })}
        </li>
      )}
    </ul>
  );
});
