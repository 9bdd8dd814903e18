import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { usePlan, useSession, useUnits } from '../context.tsx';
import { Fold } from '../controls/parts.tsx';
import { runWhy } from './run-why.ts';

/** Why the run goes the way that it goes: what the search weighed, line by line. */
export function WhyFold({ run }: { run: Run }) {
  const units = useUnits();
  const now = usePlan();
  const plan = useSession((s) => s.surveyed) ?? now;
  const why = runWhy(plan, run, units);
  return (
    <Fold title={t('why.title')} aside={why.cost}>
      <p className="note">{t('why.hint')}</p>
      <table className="sum why">
        <caption className="unseen">{t('why.caption', { label: run.label })}</caption>
        <tbody>
          {why.lines.map((line, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the lines are a sum in order, without names of their own
            <tr key={i}>
              <th scope="row">
                {line.label}
                {line.detail === '' ? null : <span className="why-detail">{line.detail}</span>}
              </th>
              <td>{line.shown}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr className="sum-total">
            <th scope="row">{t('why.cost')}</th>
            <td>{why.cost}</td>
          </tr>
        </tfoot>
      </table>
      <p className="note">{t('why.path', { path: why.path })}</p>
      {why.pin === null ? null : <p className="note">{why.pin}</p>}
    </Fold>
  );
}
