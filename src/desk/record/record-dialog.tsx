import { useCallback, useMemo, useRef, useState } from 'react';
import { sortByLabel } from '../../base/labels.ts';
import {
  BUILT_FIELDS,
  type Built,
  builtPorts,
  countBuilt,
  marksAgainst,
} from '../../plan/built.ts';
import type { BuiltField, BuiltValue } from '../../plan/built-words.ts';
import type { Jack, Plan } from '../../plan/plan.ts';
import { portMap } from '../../results/ports.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, usePlan, useSession, useUnits } from '../context.tsx';
import { Button } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { Dialog } from '../dialogs/dialog.tsx';
import { nameOf } from '../names.ts';
import { readBuilt } from './fields.ts';
import { Row } from './record-row.tsx';
import { walkColumn } from './walk.ts';
import './record.css';

/** Who and when: put to every cable that gets its first entry, so that they are typed once for a sheet. */
type Stamp = Pick<Built, 'by' | 'on'>;

/** The record of every cable as a table to type in, in the order of the printed schedule. */
export default function RecordDialog({ onShut }: { onShut(): void }) {
  const table = useRef<HTMLTableElement>(null);
  const [stamp, setStamp] = useState<Stamp>({ by: '', on: '' });
  const [held, setHeld] = useState(false);
  const { wrong: notRead, tell } = useWrong();
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
      <Table table={table} stamp={stamp} onWrong={tell} />
      <footer className="dialog-foot">
        <p className="grow" role="status">
          <Status held={held} wrong={notRead} />
        </p>
        <Button look="main" onClick={shut}>
          {t('built.done')}
        </Button>
      </footer>
    </Dialog>
  );
}

/** The cells that are not understood, by their names, in the order in which they came. */
function useWrong() {
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const tell = useCallback((cell: string, is: boolean) => {
    setWrong((before) => [...before.filter((name) => name !== cell), ...(is ? [cell] : [])]);
  }, []);
  return { wrong, tell };
}

/** What is to be put right before the table is shut, else how far the record is and which lengths are in doubt. */
function Status({ held, wrong }: { held: boolean; wrong: readonly string[] }) {
  const plan = usePlan();
  if (wrong.length > 0)
    return (
      <span className="record-off">
        {held ? t('built.held') : t('built.wrong', { cells: wrong.join('; ') })}
      </span>
    );
  const off = labelled(plan).filter(({ built }) => marksAgainst(built) !== null);
  return (
    <>
      <span className="record-counted">{t('built.count', { ...countBuilt(plan) })}</span>
      {off.length === 0 ? null : (
        <span className="record-off">
          {t('built.off-marks', { labels: off.map(({ label }) => label).join(', ') })}
        </span>
      )}
    </>
  );
}

/** Jacks in the order of the printed schedule. */
const labelled = (plan: Plan): Jack[] =>
  sortByLabel(
    [...plan.tables.jacks.values()],
    ({ label }) => label,
    ({ id }) => id,
  );

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
            return (
              <Row
                key={jack.id}
                jack={jack}
                serves={
                  jack.device === null
                    ? t('jack.spare')
                    : nameOf(plan, kinds, { table: 'devices', id: jack.device })
                }
                home={closets.size > 1 ? (closets.get(run?.closet ?? '')?.name ?? '-') : null}
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

const NONE: readonly Run[] = [];
