import { countBuilt } from '../../plan/built.ts';
import { t } from '../../text/index.ts';
import { useDesk, usePlan } from '../context.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { openRecord, openReturned } from '../record/open-record.tsx';

/** How far the record of what was built is, and where it is typed. */
export function BuiltSection() {
  const parts = useDesk();
  const count = countBuilt(usePlan());
  if (count.cables === 0) return null;
  const bring = async () => {
    const list = await parts.services.bringRecord();
    if (list) openReturned(parts, list);
  };
  return (
    <Section title={t('built.section')} aside={`${count.recorded} / ${count.cables}`}>
      <p className="note">
        {count.recorded === 0 ? t('built.none') : t('built.count', { ...count })}
      </p>
      <div className="button-row">
        <Button onClick={() => openRecord(parts)}>{t('built.open')}</Button>
        <Button onClick={bring}>{t('built.bring')}</Button>
      </div>
    </Section>
  );
}
