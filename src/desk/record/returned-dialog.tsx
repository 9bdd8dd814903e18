import { useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import type { ReturnedList } from '../../results/returned.ts';
import { t } from '../../text/index.ts';
import { useActions, useUnits } from '../context.tsx';
import { Button } from '../controls/parts.tsx';
import { Dialog } from '../dialogs/dialog.tsx';
import { showBuilt } from './fields.ts';
import './record.css';

/** What a list that came back would change, and what in it is not understood, before anything is recorded. */
export default function ReturnedDialog({ list, onShut }: { list: ReturnedList; onShut(): void }) {
  const actions = useActions();
  const units = useUnits();
  const { records, cells } = list;
  // One that is named twice over is told apart by where it stands.
  const [faults] = useState(() => list.faults.map((fault, i) => ({ fault, key: i })));
  return (
    <Dialog title={t('returned.title')} wide onShut={onShut}>
      {faults.length === 0 ? null : (
        <section className="said said-off">
          <p>{t('returned.faults')}</p>
          <ul>
            {faults.map(({ fault, key }) => (
              <li key={key}>{renderMessage(fault, units)}</li>
            ))}
          </ul>
        </section>
      )}
      <p>{cells.length === 0 ? t('returned.none') : t.count('returned.count', records.length)}</p>
      {cells.length === 0 ? null : (
        <table className="returned">
          <thead>
            <tr>
              <th scope="col">{t('built.cable')}</th>
              <th scope="col">{t('returned.column')}</th>
              <th scope="col">{t('returned.before')}</th>
              <th scope="col">{t('returned.after')}</th>
            </tr>
          </thead>
          <tbody>
            {cells.map(({ label, column, field, before, after }) => (
              <tr key={`${label} ${column}`}>
                <th scope="row">{label}</th>
                <td>{column}</td>
                <td>{showBuilt(field, before, units) || '-'}</td>
                <td>{showBuilt(field, after, units) || '-'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <footer className="dialog-foot">
        <span className="grow" />
        <Button onClick={onShut}>{t('returned.leave')}</Button>
        <Button
          look="main"
          disabled={records.length === 0}
          onClick={() => {
            actions.run('record', { records });
            onShut();
          }}
        >
          {t('returned.go')}
        </Button>
      </footer>
    </Dialog>
  );
}
