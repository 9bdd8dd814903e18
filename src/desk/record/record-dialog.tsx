import { memo, useCallback, useMemo, useRef, useState } from 'react';
import { sortByLabel } from '../../base/labels.ts';
import { formatLength } from '../../base/units.ts';
import {
  BUILT_FIELDS,
  type Built,
  betweenMarks,
  builtPorts,
  countBuilt,
} from '../../plan/built.ts';
import type { BuiltField, BuiltValue } from '../../plan/built-words.ts';
import type { Jack } from '../../plan/plan.ts';
import { portMap } from '../../results/ports.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, usePlan, useSession, useUnits } from '../context.tsx';
import { Button } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { Dialog } from '../dialogs/dialog.tsx';
import { nameOf } from '../names.ts';
import { Cell } from './cell.tsx';
import { followsWords, readBuilt } from './fields.ts';
import { walkColumn } from './walk.ts';
import './record.css';

/** Who and when: put to every cable that gets its first entry, so that they are typed once for a sheet. */
type Stamp = Pick<Built, 'by' | 'on'>;

/** The record of every cable as a table to type in, in the order of the printed schedule. */
export default function RecordDialog({ onShut }: { onShut(): void }) {
  const table = useRef<HTMLTableElement>(null);
  const [stamp, setStamp] = useState<Stamp>({ by: '', on: '' });
  const [held, setHeld] = useState(false);
  const plan = usePlan();
  const count = countBuilt(plan);
  // What is not understood would be lost with the table.
  const shut = () => {
    const wrong = table.current?.querySelector<HTMLElement>('[aria-invalid="true"]');
    setHeld(wrong != null);
    if (wrong) wrong.focus();
    else onShut();
  };
  return (
    <Dialog title={t('built.title')} wide onShut={shut}>
      <p className="note">{t('built.hint')}</p>
      <div className="record-stamp">
        <StampField field="by" stamp={stamp} onStamp={setStamp} />
        <StampField field="on" stamp={stamp} onStamp={setStamp} />
        <p className="note">{t('built.stamp-hint')}</p>
      </div>
      <Table table={table} stamp={stamp} />
      <footer className="dialog-foot">
        <p className="grow" role="status">
          {held ? t('built.held') : t('built.count', { ...count })}
        </p>
        <Button look="main" onClick={shut}>
          {t('built.done')}
        </Button>
      </footer>
    </Dialog>
  );
}

function StampField({
  field,
  stamp,
  onStamp,
}: {
  field: keyof Stamp;
  stamp: Stamp;
  onStamp(stamp: Stamp): void;
}) {
  const units = useUnits();
  return (
    <TypedField
      label={t(`built.${field}`)}
      kind="words"
      value={stamp[field]}
      show={(text) => text}
      read={(text) => {
        const reading = readBuilt(field, text, units);
        return 'why' in reading ? reading : { value: String(reading.value) };
      }}
      onCommit={(value) => onStamp({ ...stamp, [field]: value })}
    />
  );
}

function Table({
  table,
  stamp,
}: {
  table: React.RefObject<HTMLTableElement | null>;
  stamp: Stamp;
}) {
  const plan = usePlan();
  const kinds = useKinds();
  const actions = useActions();
  const runs = useSession((s) => s.survey?.runs ?? NONE);
  const jacks = useMemo(
    () =>
      sortByLabel(
        [...plan.tables.jacks.values()],
        ({ label }) => label,
        ({ id }) => id,
      ),
    [plan],
  );
  const byJack = useMemo(() => new Map(runs.map((run) => [run.jack, run])), [runs]);
  const ports = useMemo(() => {
    const uses = [...portMap(runs, builtPorts(plan)).values()].flat();
    return new Map(uses.map((use) => [use.jack, use.port]));
  }, [runs, plan]);
  const commit = useCallback(
    (jack: Jack, field: BuiltField, value: BuiltValue) => {
      const first = jack.built === null ? stamp : {};
      const fields = { ...first, [field]: value };
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
            <th scope="col">{t('built.planned')}</th>
            {BUILT_FIELDS.map((field) => (
              <th key={field} scope="col" className={`record-${field}`}>
                {t(`built.${field}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {jacks.map((jack) => (
            <Row
              key={jack.id}
              jack={jack}
              serves={
                jack.device === null
                  ? t('jack.spare')
                  : nameOf(plan, kinds, { table: 'devices', id: jack.device })
              }
              planned={byJack.get(jack.id) ?? null}
              port={ports.get(jack.id) ?? null}
              onCommit={commit}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
}

const NONE: readonly Run[] = [];

const Row = memo(function Row({
  jack,
  serves,
  planned,
  port,
  onCommit,
}: {
  jack: Jack;
  serves: string;
  planned: Run | null;
  port: number | null;
  onCommit(jack: Jack, field: BuiltField, value: BuiltValue): void;
}) {
  const units = useUnits();
  const between = jack.built && betweenMarks(jack.built);
  const follows: Partial<Record<BuiltField, string>> = {
    length: followsWords(between, units),
    port: port === null ? '' : `(${port})`,
  };
  const known = planned !== null && planned.status !== 'unroutable';
  return (
    <tr>
      <th scope="row">{jack.label}</th>
      <td>{serves}</td>
      <td className="record-planned">{known ? formatLength(planned.cable, units) : '-'}</td>
      {BUILT_FIELDS.map((field) => (
        <Cell
          key={field}
          label={jack.label}
          field={field}
          built={jack.built}
          follows={follows[field] ?? ''}
          onCommit={(of, value) => onCommit(jack, of, value)}
        />
      ))}
    </tr>
  );
});
