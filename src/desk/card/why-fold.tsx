import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { usePlan, useSession, useUnits } from '../context.tsx';
import { Fold } from '../controls/parts.tsx';
import { runWhy } from './run-why.ts';
import { SumTable } from './sum-table.tsx';

/** Why the run goes the way that it goes: what the search weighed, line by line; without a way there is nothing to weigh. */
export function WhyFold({ run }: { run: Run | null }) {
  const units = useUnits();
  const now = usePlan();
  const plan = useSession((s) => s.surveyed) ?? now;
  const why = run === null || run.status === 'unroutable' ? null : runWhy(plan, run, units);
  return (
    <Fold title={t('why.title')} aside={why?.cost ?? ''}>
      <p className="note">{t('why.hint')}</p>
      {why && run ? (
        <SumTable
          caption={t('why.caption', { label: run.label })}
          lines={why.lines}
          name={({ label, detail }) => (
            <>
              {label}
              {detail === '' ? null : <span className="why-detail">{detail}</span>}
            </>
          )}
          totals={[{ label: t('why.cost'), shown: why.cost }]}
        >
          <p className="note">{t('why.path', { path: why.path })}</p>
          {why.pin === null ? null : <p className="note">{why.pin}</p>}
        </SumTable>
      ) : (
        <p className="note sum-place">{t('why.none')}</p>
      )}
    </Fold>
  );
}
