import { useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import { job } from '../../plan/plan.ts';
import { PAPERS, type PaperName } from '../../sheets/sheet.ts';
import { t } from '../../text/index.ts';
import { useEdit } from '../card/common.tsx';
import { useDesk, usePlan, useUnits } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { TextField } from '../controls/fields.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { type Reading, TypedField } from '../controls/typed-field.tsx';
import { paperFor, usePrintChoice } from '../print-choice.ts';
import { useSheetList } from '../sheet-list.ts';
import { BuiltSection } from './built.tsx';

const CAUTIONS = ['ladder', 'power', 'ceiling', 'fire', 'licence'] as const;

export function PrintShelf() {
  const { services, printChoice } = useDesk();
  const units = useUnits();
  const sheets = useSheetList();
  const choice = usePrintChoice();
  const [busy, setBusy] = useState(false);
  const paper = paperFor(choice, units);
  const chosen = sheets.filter((sheet) => !choice.left.has(sheet.id));
  const toggle = (id: string, on: boolean) => {
    const left = new Set(choice.left);
    if (on) left.delete(id);
    else left.add(id);
    printChoice.setState({ left });
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
          onChoose={(next) => printChoice.setState({ paper: next })}
        />
        {sheets.length === 0 ? <p className="note">{t('print.no-sheets')}</p> : null}
        <div className="checks">
          {sheets.map((sheet) => (
            <CheckField
              key={sheet.id}
              label={renderMessage(sheet.title, units)}
              checked={!choice.left.has(sheet.id)}
              onChange={(on) => toggle(sheet.id, on)}
            />
          ))}
        </div>
        <Button look="main" disabled={busy || chosen.length === 0} onClick={print}>
          {t(busy ? 'print.busy' : 'print.go')}
        </Button>
        <p className="note">{t('print.check-square')}</p>
      </Section>
      <BuiltSection />
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
  const row = job(usePlan());
  const edit = useEdit('job', 'job');
  const field = (name: 'client' | 'address' | 'preparedBy' | 'revision') => (
    <TextField
      label={t(`job.${name}`)}
      value={row[name]}
      onCommit={(value) => edit({ [name]: value })}
    />
  );
  return (
    <Section title={t('print.title-block')}>
      <TextField
        label={t('print.job')}
        value={row.name}
        onCommit={(value) => value && edit({ name: value })}
      />
      {field('client')}
      {field('address')}
      {field('preparedBy')}
      {field('revision')}
      <TypedField
        label={t('print.north')}
        value={row.north}
        mode="decimal"
        show={(degrees) => `${degrees}°`}
        read={readNorth}
        onCommit={(north) => edit({ north })}
        hint={t('print.north-hint')}
      />
    </Section>
  );
}

/** Degrees clockwise from the top of the drawing, as they stand in the plan. */
function readNorth(text: string): Reading<number> {
  const degrees = Number(text.replace('°', '').replace(',', '.').trim());
  return text.trim() === '' || !(Math.abs(degrees) <= 360)
    ? { why: t('print.north-wrong') }
    : { value: Math.round(degrees * 10) / 10 + 0 };
}
