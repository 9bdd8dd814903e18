import { groupBy } from '../../base/group.ts';
import type { Id } from '../../base/ids.ts';
import { formatLength } from '../../base/units.ts';
import { entity, type Plan } from '../../plan/plan.ts';
import { risersOf } from '../../results/risers.ts';
import type { Run } from '../../results/types.ts';
import { formatPercent, t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useSession, useUnits } from '../context.tsx';
import { Button, Fold, Section } from '../controls/parts.tsx';
import { showRefs } from '../show.ts';
import { TOOL } from '../tool-ids.ts';
import { AllowanceFold } from './allowance-fields.tsx';
import { BuiltFold } from './built-fold.tsx';
import { PinPart, pinOf } from './pinning.tsx';
import { type Against, crossingWords, type RunSum, runSum } from './run-sum.ts';
import { SumTable } from './sum-table.tsx';
import { WhyFold } from './why-fold.tsx';

/** The run of a jack, as the survey has it now; null while it has none. */
export const useRun = (jack: Id): Run | null =>
  useSession((s) => s.survey?.runs.find((run) => run.jack === jack) ?? null);

/** The runs of a device or an outlet: the first one open, further ones folded. */
export function RunParts({ jacks }: { jacks: readonly Id[] }) {
  return jacks.map((jack, i) => <RunPart key={jack} jack={jack} folded={i > 0} />);
}

/**
 * A run's sum, open line by line, against what it may be. It takes the same room whether the run is being measured, has a
 * way or has none, and whatever way that is, so that nothing on the card moves with a survey.
 */
function RunPart({ jack, folded }: { jack: Id; folded: boolean }) {
  const plan = usePlan();
  const units = useUnits();
  const run = useRun(jack);
  const title = t('run.title', { label: run?.label ?? entity(plan, 'jacks', jack)?.label ?? '' });
  const body = (
    <>
      <div className="run-place">
        <RunPlace plan={plan} run={run} />
      </div>
      <WhyFold run={run} />
      <PinPart jack={jack} run={run} />
      <AllowanceFold jacks={[jack]} />
      <BuiltFold jack={jack} />
    </>
  );
  // Words at the right edge are put anew when they change, since longer ones begin further left.
  const status = run ? <StatusTag key={run.status} run={run} /> : '';
  if (!folded)
    return (
      <Section title={title} aside={status}>
        {body}
      </Section>
    );
  const cable = run && run.status !== 'unroutable' ? formatLength(run.cable, units) : '';
  const aside = (
    <span key={`${cable} ${run?.status}`}>
      {cable} {status}
    </span>
  );
  return (
    <Fold title={title} aside={aside}>
      {body}
    </Fold>
  );
}

function RunPlace({ plan, run }: { plan: Plan; run: Run | null }) {
  const units = useUnits();
  if (run === null) return <p className="note">{t('run.waiting')}</p>;
  if (run.status === 'unroutable') return <Unroutable plan={plan} run={run} />;
  return <Sum plan={plan} run={run} sum={runSum(plan, run, units)} />;
}

function Sum({ plan, run, sum }: { plan: Plan; run: Run; sum: RunSum }) {
  return (
    <>
      <SumTable
        caption={t('run.caption', { label: run.label })}
        lines={sum.lines}
        name={({ group, label }) => (
          <>
            <span className={`swatch swatch-${group}`} aria-hidden="true" />
            {label}
          </>
        )}
        totals={[
          { label: t('run.cable'), shown: sum.cable },
          { label: t('run.cords', { cords: sum.cords }), shown: sum.channel },
          { label: sum.orderWords, shown: sum.order },
        ]}
      >
        <p className="note">{homeWords(plan, run)}</p>
        <Crossings plan={plan} run={run} />
      </SumTable>
      <AgainstBar against={sum.link} status={run.status} />
      <AgainstBar against={sum.whole} status={sum.whole.share > 1 ? 'over' : 'ok'} />
    </>
  );
}

const STATUS_SHAPE = { ok: '', near: '▲', over: '■', unroutable: '✕' } as const;

/** The state of a run, by shape and by word. */
export function StatusTag({ run }: { run: Pick<Run, 'status'> }) {
  return (
    <span className={`status status-${run.status}`}>
      <span aria-hidden="true">{STATUS_SHAPE[run.status]}</span> {t(`status.${run.status}`)}
    </span>
  );
}

/** A length against its limit: a bar with a tick at the limit, and the same in words. */
function AgainstBar({ against, status }: { against: Against; status: Run['status'] }) {
  // Beyond the limit the bar is scaled to the length, so that the tick stands inside.
  const full = Math.max(1, against.share) * 1.04;
  return (
    <div className={`against against-${status}`}>
      <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <rect className="against-track" width="100" height="8" />
        <rect className="against-fill" width={(against.share / full) * 100} height="8" />
        <rect className="against-limit" x={100 / full - 0.5} width="1" height="8" />
      </svg>
      <p>
        {t('run.against', {
          what: against.label,
          length: against.length,
          share: formatPercent(against.share),
          limit: against.limit,
        })}
      </p>
    </div>
  );
}

function homeWords(plan: Plan, run: Run): string {
  const closet = run.closet === null ? undefined : entity(plan, 'closets', run.closet);
  const name = closet?.name ?? t('thing.closets');
  const risers = risersOf(run).flatMap((id) => entity(plan, 'risers', id)?.name ?? []);
  if (!closet || risers.length === 0) return t('run.home', { closet: name });
  const level = entity(plan, 'levels', closet.level)?.name ?? '';
  return t('run.home-level', { closet: name, level, risers: risers.join(', ') });
}

/** The holes that the run needs, alike ones counted. */
function Crossings({ plan, run }: { plan: Plan; run: Run }) {
  const holes = groupBy(crossingWords(plan, run), (words) => words);
  if (holes.size === 0) return null;
  return (
    <ul className="crossings">
      {[...holes].map(([words, these]) => (
        <li key={words}>{these.length === 1 ? words : `${these.length} × ${words}`}</li>
      ))}
    </ul>
  );
}

/** Why a run has no way, in words. */
export function blockedWords(plan: Plan, run: Run): string {
  const by = run.blocked?.by ?? null;
  const named = by
    ? (plan.tables[by.table].get(by.id) as { name?: string } | undefined)
    : undefined;
  switch (run.blocked?.reason) {
    case 'no-closet':
      return t('run.no-closet');
    case 'other-level':
      return t('run.no-riser');
    case 'no-under-slab':
      return t('run.no-under-slab');
    case 'pin':
      return t('run.no-pin', { pin: pinOf(plan, run.jack)?.name ?? t('thing.pins') });
    default:
      return named?.name ? t('run.no-way-by', { what: named.name }) : t('run.no-way');
  }
}

function Unroutable({ plan, run }: { plan: Plan; run: Run }) {
  const { session } = useDesk();
  const actions = useActions();
  const by = run.blocked?.by ?? null;
  const noRiser = run.blocked?.reason === 'other-level' && plan.tables.levels.size > 1;
  return (
    <>
      <p className="said said-off">{blockedWords(plan, run)}</p>
      <div className="button-row">
        {by ? <Button onClick={() => showRefs(session, [by])}>{t('run.show-block')}</Button> : null}
        {noRiser ? (
          <Button
            onClick={() => {
              actions.set({ leg: 'runs' });
              actions.pick(TOOL.riser);
            }}
          >
            {t('run.take-riser')}
          </Button>
        ) : null}
      </div>
    </>
  );
}
