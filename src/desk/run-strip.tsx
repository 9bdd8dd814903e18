import { formatLength } from '../base/units.ts';
import { toBoard } from '../board/session.ts';
import { jacksOfRefs } from '../plan/jacks.ts';
import type { Ref } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { dearest, runWhy } from './card/run-why.ts';
import { useDesk, usePlan, usePointed, useSession, useUnits } from './context.tsx';

/** Lines of a strip, the sum apart. */
const LINES = 5;

/**
 * What the run under the resting pointer weighs, at the edge of the board; by touch of the one that is picked. It is drawn
 * anew when that is another run, and lets the pointer through. Only where ways are looked at: whoever places devices or
 * reads a price takes what was weighed for a length.
 */
export function RunStrip() {
  const under = usePointed();
  const pointed = useSession((s) => jackOf(s, under));
  const picked = useSession((s) => jackOf(s, s.selection.length === 1 ? s.selection[0]! : null));
  const jack = pointed ?? picked;
  const run = useSession((s) => s.survey?.runs.find((r) => r.jack === jack) ?? null);
  const units = useUnits();
  const now = usePlan();
  const plan = useSession((s) => s.surveyed) ?? now;
  const { session } = useDesk();
  const asked = useSession((s) => s.leg === 'runs' || s.shown.ceiling);
  if (!asked || !run || run.status === 'unroutable') return null;
  const why = runWhy(plan, run, units);
  // It stands where the jack is not; where the view has moved since does not matter enough to follow it.
  const { viewport } = session.getState();
  const [start] = run.points;
  const left = !start || toBoard(viewport, [start[0], start[1]])[0] > viewport.width / 2;
  const looks = ['run-strip', left ? '' : 'run-strip-right', pointed ? '' : 'run-strip-picked'];
  return (
    <aside className={looks.join(' ')} aria-label={t('why.strip', { label: run.label })}>
      <p className="run-strip-head">
        <b>{run.label}</b>
        <span>
          {t('run.cable')} {formatLength(run.cable, units)}
        </span>
      </p>
      <dl>
        {dearest(why.lines, LINES, units).map((line, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the lines are a sum in order, without names of their own
          <div key={i}>
            <dt>
              {line.label}
              {line.detail === '' ? null : <span className="why-detail">{line.detail}</span>}
            </dt>
            <dd>{line.shown}</dd>
          </div>
        ))}
        <div className="run-strip-sum">
          <dt>{t('why.cost')}</dt>
          <dd>{why.cost}</dd>
        </div>
      </dl>
    </aside>
  );
}

type Seen = Parameters<Parameters<typeof useSession>[0]>[0];

/** The jack that is meant by a thing; nothing is said while something is dragged. */
function jackOf({ history, preview }: Seen, ref: Ref | null): string | null {
  if (preview || !ref || !['jacks', 'outlets', 'devices'].includes(ref.table)) return null;
  return jacksOfRefs(history.plan, [ref])[0] ?? null;
}
