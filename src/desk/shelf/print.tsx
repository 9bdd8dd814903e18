import { useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import { job } from '../../plan/plan.ts';
import { PAPERS, type PaperName } from '../../sheets/sheet.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useUnits } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { TextField } from '../controls/fields.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { useSheetList } from '../sheet-list.ts';

const CAUTIONS = ['ladder', 'power', 'ceiling', 'fire', 'licence'] as const;

export function PrintShelf() {
  const { services } = useDesk();
  const units = useUnits();
  const sheets = useSheetList();
  const [paper, setPaper] = useState<PaperName>(units === 'ft' ? 'tabloid' : 'a3');
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [busy, setBusy] = useState(false);
  const chosen = sheets.filter((sheet) => !left.has(sheet.id));
  const toggle = (id: string, on: boolean) => {
    const next = new Set(left);
    if (on) next.delete(id);
    else next.add(id);
    setLeft(next);
  };
  const print = async () => {
    setBusy(true);
    try {
      await services.print(
        paper,
        chosen.map((sheet) => sheet.id),
      );
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      <Section title={t('print.sheets')}>
        <SelectField<PaperName>
          label={t('print.paper')}
          value={paper}
          options={(Object.keys(PAPERS) as PaperName[]).map((name) => ({
            value: name,
            label: t(`paper.${name}`),
          }))}
          onChoose={setPaper}
        />
        <div className="checks">
          {sheets.map((sheet) => (
            <CheckField
              key={sheet.id}
              label={renderMessage(sheet.title, units)}
              checked={!left.has(sheet.id)}
              onChange={(on) => toggle(sheet.id, on)}
            />
          ))}
        </div>
        <Button look="main" disabled={busy || chosen.length === 0} onClick={print}>
          {t(busy ? 'print.busy' : 'print.go')}
        </Button>
        <p className="note">{t('print.check-square')}</p>
      </Section>
      <Title />
      <Section title={t('print.lists')}>
        <div className="button-row">
          <Button onClick={() => services.saveCsv('schedule')}>{t('print.schedule')}</Button>
          <Button onClick={() => services.saveCsv('materials')}>{t('print.materials')}</Button>
        </div>
      </Section>
      <Section title={t('print.cautions')}>
        <ul className="cautions">
          {CAUTIONS.map((caution) => (
            <li key={caution}>{t(`caution.${caution}`)}</li>
          ))}
        </ul>
      </Section>
    </>
  );
}

/** What stands in the title block. */
function Title() {
  const actions = useActions();
  const row = job(usePlan());
  const field = (name: 'client' | 'address' | 'preparedBy' | 'revision') => (
    <TextField
      label={t(`job.${name}`)}
      value={row[name]}
      onCommit={(value) =>
        void actions.run('edit', { table: 'job', id: 'job', fields: { [name]: value } })
      }
    />
  );
  return (
    <Section title={t('print.title-block')}>
      {field('client')}
      {field('address')}
      {field('preparedBy')}
      {field('revision')}
    </Section>
  );
}
