import { memo } from 'react';
import { formatLength } from '../../base/units.ts';
import { t } from '../../text/index.ts';
import { StatusTag } from '../card/run-card.tsx';
import { useDesk, useUnits } from '../context.tsx';
import { pickRun } from '../show.ts';
import { useMarked } from './marked.ts';
import type { LadderRow } from './rows.ts';

/** The same as a table, for the keyboard, for screen readers, and for whoever likes figures. */
export const List = memo(({ rows }: { rows: readonly LadderRow[] }) => {
  const { selected } = useMarked();
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard
    <section className="ladder-list" tabIndex={0} aria-label={t('ladder.list')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{t('ladder.col.run')}</th>
            <th scope="col">{t('part.along')}</th>
            <th scope="col">{t('part.vertical')}</th>
            <th scope="col">{t('part.slack')}</th>
            <th scope="col">{t('run.cable')}</th>
            <th scope="col">{t('ladder.col.limit')}</th>
            <th scope="col">{t('ladder.col.state')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Line key={row.jack} row={row} picked={selected.has(row.jack)} />
          ))}
        </tbody>
      </table>
    </section>
  );
});

const Line = memo(({ row, picked }: { row: LadderRow; picked: boolean }) => {
  const { session } = useDesk();
  const units = useUnits();
  const show = (mm: number) => formatLength(mm, units);
  return (
    <tr className={picked ? 'picked' : undefined}>
      <th scope="row">
        <button
          type="button"
          className="link"
          aria-current={picked ? 'true' : undefined}
          onClick={(event) => pickRun(session, row.jack, event.shiftKey)}
        >
          {row.label}
        </button>
      </th>
      <td>{show(row.along)}</td>
      <td>{show(row.vertical)}</td>
      <td>{show(row.slack)}</td>
      <td>{show(row.cable)}</td>
      <td>{show(row.limit)}</td>
      <td>
        <StatusTag run={row} />
      </td>
    </tr>
  );
});
