import { useCallback, useMemo, useRef } from 'react';
import { sortByLabel } from '../../base/labels.ts';
import { BUILT_FIELDS, type Built, builtPorts } from '../../plan/built.ts';
import type { BuiltField, BuiltValue } from '../../plan/built-words.ts';
import { closetName } from '../../plan/names.ts';
import type { Jack, Plan } from '../../plan/plan.ts';
import { portsOf } from '../../results/ports.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, usePlan, useSession } from '../context.tsx';
import { nameOf } from '../names.ts';
import { firstEntry } from './fields.ts';
import { Row } from './record-row.tsx';
import { walkColumn } from './walk.ts';

/** Who and when: put to every cable that gets its first entry, so that they are typed once for a sheet. */
export type Stamp = Pick<Built, 'by' | 'on'>;

const NONE: readonly Run[] = [];

/** Jacks in the order of the printed schedule. */
export const labelled = (plan: Plan): Jack[] =>
  sortByLabel(
    [...plan.tables.jacks.values()],
    ({ label }) => label,
    ({ id }) => id,
  );

/** A row a cable and a column a field; what is typed is recorded cell by cell. */
export function RecordTable({
  table,
  stamp,
  onWrong,
}: {
  table: React.RefObject<HTMLTableElement | null>;
  stamp: Stamp;
  onWrong(cell: string, wrong: boolean): void;
}) {
  const plan = usePlan();
  const kinds = useKinds();
  const actions = useActions();
  const runs = useSession((s) => s.survey?.runs ?? NONE);
  const jacks = useMemo(() => labelled(plan), [plan]);
  const { closets } = plan.tables;
  const byJack = useMemo(() => new Map(runs.map((run) => [run.jack, run])), [runs]);
  const ports = useMemo(() => portsOf(runs, builtPorts(plan)), [runs, plan]);
  // Asked when something is typed, so that no row is made anew because the port of another one was recorded.
  const planned = useRef(ports);
  planned.current = ports;
  const commit = useCallback(
    (jack: Jack, field: BuiltField, value: BuiltValue) => {
      const fields = { ...firstEntry(jack, planned.current, stamp), [field]: value };
      actions.run('record', { records: [{ jack: jack.id, fields }] });
    },
    [actions, stamp],
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard
    <section className="record-scroll" tabIndex={0} aria-label={t('built.title')}>
      <table ref={table} className="record" onKeyDown={walkColumn}>
        <thead>
          <tr>
            <th scope="col">{t('built.cable')}</th>
            <th scope="col">{t('built.serves')}</th>
            {closets.size > 1 ? <th scope="col">{t('built.closet')}</th> : null}
            <th scope="col">{t('built.planned')}</th>
            {BUILT_FIELDS.map((field) => (
              <th key={field} scope="col" className={`record-${field}`}>
                {t(`built.${field}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {jacks.map((jack) => {
            const run = byJack.get(jack.id) ?? null;
            const closet = closets.get(run?.closet ?? '');
            return (
              <Row
                key={jack.id}
                jack={jack}
                serves={
                  jack.device === null
                    ? t('jack.spare')
                    : nameOf(plan, kinds, { table: 'devices', id: jack.device })
                }
                home={closets.size > 1 ? (closet ? closetName(plan, closet) : '-') : null}
                planned={run}
                port={ports.get(jack.id) ?? null}
                onWrong={onWrong}
                onCommit={commit}
              />
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
