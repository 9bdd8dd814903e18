import { useState } from 'react';
import { job, type Plan } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { useDesk, useSession } from './context.tsx';
import { ICONS } from './controls/icons.tsx';
import { Button, IconButton } from './controls/parts.tsx';
import { replaceJob } from './dialogs/replace.tsx';

/** Who has prepared the samples, as their title blocks say. Whoever takes one over puts their own name there. */
const BY = 'Sample job';

/** Whether a job is one of those that come with the program. */
export const isSample = (plan: Plan): boolean => job(plan).preparedBy === BY;

/** Says over the drawing that this is a sample, and how to begin one's own job. */
export function SampleStrip() {
  const sample = useSession((s) => isSample(s.history.plan));
  const opened = useSession((s) => s.opened);
  const [shut, setShut] = useState<Plan | null>(null);
  if (!sample || shut === opened) return null;
  return (
    <section className="sample-strip" aria-label={t('sample.label')}>
      <p>
        <strong>{t('sample.is')}</strong> {t('sample.words')}
      </p>
      <BeginOwn />
      <IconButton label={t('sample.shut')} onClick={() => setShut(opened)}>
        {ICONS.close}
      </IconButton>
    </section>
  );
}

/** Leaves the sample for a job of one's own; the start panel then says how to begin it. */
export function BeginOwn() {
  const { session, services } = useDesk();
  return (
    <Button onClick={() => replaceJob(session, services, () => services.newJob())}>
      {t('sample.own')}
    </Button>
  );
}
