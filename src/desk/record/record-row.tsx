import { memo, useCallback } from 'react';
import { formatLength } from '../../base/units.ts';
import { BUILT_FIELDS, betweenMarks } from '../../plan/built.ts';
import type { BuiltField, BuiltValue } from '../../plan/built-words.ts';
import type { Jack } from '../../plan/plan.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useUnits } from '../context.tsx';
import { Cell } from './cell.tsx';
import { doubtWords, followsWords } from './fields.ts';

/** The line of one cable in the record. */
export const Row = memo(function Row({
  jack,
  serves,
  home,
  planned,
  port,
  onWrong,
  onCommit,
}: {
  jack: Jack;
  serves: string;
  /** The closet that it comes home to, where there are several. */
  home: string | null;
  planned: Run | null;
  port: number | null;
  onWrong(cell: string, wrong: boolean): void;
  onCommit(jack: Jack, field: BuiltField, value: BuiltValue): void;
}) {
  const units = useUnits();
  const { label } = jack;
  const tell = useCallback(
    (field: BuiltField, wrong: boolean) =>
      onWrong(t('built.cell', { label, field: t(`built.${field}`) }), wrong),
    [label, onWrong],
  );
  const between = jack.built && betweenMarks(jack.built);
  const follows: Partial<Record<BuiltField, string>> = {
    length: followsWords(between, units),
    port: port === null ? '' : `(${port})`,
  };
  const known = planned !== null && planned.status !== 'unroutable';
  return (
    <tr>
      <th scope="row">{label}</th>
      <td>{serves}</td>
      {home === null ? null : (
        <td className="record-home" title={home}>
          {home}
        </td>
      )}
      <td className="record-planned">{known ? formatLength(planned.cable, units) : '-'}</td>
      {BUILT_FIELDS.map((field) => (
        <Cell
          key={field}
          label={label}
          field={field}
          built={jack.built}
          follows={follows[field] ?? ''}
          doubt={field === 'length' ? doubtWords(jack.built, units) : ''}
          onWrong={tell}
          onCommit={(of, value) => onCommit(jack, of, value)}
        />
      ))}
    </tr>
  );
});
