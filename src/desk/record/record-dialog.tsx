import { useCallback, useRef, useState } from 'react';
import { countBuilt, marksAgainst } from '../../plan/built.ts';
import { t } from '../../text/index.ts';
import { usePlan, useUnits } from '../context.tsx';
import { Button } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { Dialog } from '../dialogs/dialog.tsx';
import { readBuilt } from './fields.ts';
import { labelled, RecordTable, type Stamp } from './record-table.tsx';
import './record.css';

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
      <RecordTable table={table} stamp={stamp} onWrong={tell} />
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
