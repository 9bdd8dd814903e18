import { groupBy } from '../../base/group.ts';
import type { Id } from '../../base/ids.ts';
import { entity, type Plan } from '../../plan/plan.ts';
import { risersOf } from '../../results/risers.ts';
import type { Run } from '../../results/types.ts';
import { formatPercent, t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useSession, useUnits } from '../context.tsx';
import { Button, Fold, Section } from '../controls/parts.tsx';
import { showRefs } from '../show.ts';
import { TOOL } from '../tool-ids.ts';
import { AllowanceFold } from './allowance-fields.tsx';
import { PinPart, pinOf } from './pinning.tsx';
import { type Against, crossingWords, type RunSum, runSum } from './run-sum.ts';
import { Still } from './still.tsx';
import { SumTable } from './sum-table.tsx';
import { WhyFold } from './why-fold.tsx';

/** The run of a jack, as the survey has it now; null while it has none. */
export const useRun = (jack: Id): Run | null =>
  useSession((s) => s.survey?.runs.find((run) => run.jack === jack) ?? null);

/** The runs of a device or an outlet: the first one open, further ones folded. */
export function RunParts({ jacks }: { jacks: readonly Id[] }) {
  return jacks.map((jack, i) => (
    <Still key={jack}>
      <RunPart jack={jack} folded={i > 0} />
    </Still>
  ));
}

/** A run's sum, open line by line, against what it may be. */
function RunPart({ jack, folded = false }: { jack: Id; folded?: boolean }) {
  const plan = usePlan();
  const units = useUnits();
  const run = useRun(jack);
  if (run === null) return <p className="note">{t('run.waiting')}</p>;
  if (run.status === 'unroutable') return <Unroutable plan={plan} run={run} />;
  const sum = runSum(plan, run, units);
  const title = t('run.title', { label: run.label });
  if (folded)
    return (
      <Fold title={title} aside={<RunAside run={run} cable={sum.cable} />}>
        <Sum plan={plan} run={run} sum={sum} />
      </Fold>
    );
  return (
    <Section title={title} aside={<StatusTag run={run} />}>
      <Sum plan={plan} run={run} sum={sum} />
    </Section>
  );
}

const RunAside = ({ run, cable }: { run: Run; cable: string }) => (
  <>
    {cable} <StatusTag run={run} />
  </>
);

function Sum({ plan, run, sum }: { plan: Plan; run: Run; sum: RunSum }) {
  return (
    <>
      <p className="note">{homeWords(plan, run)}</p>
      <Still exact>
        <SumTable
          caption={t('run.caption', { label: run.label })}
          lines={sum.lines}
          name={({ group, label }) => (
            <>
              <span className={`swatch swatch-${group}`} aria-hidden="true" />
              {label}
            </>
          )}
          total={{ label: t('run.cable'), shown: sum.cable }}
          below={[
            { label: t('run.cords', { cords: sum.cords }), shown: sum.channel },
            { label: sum.orderWords, shown: sum.order },
          ]}
        />
      </Still>
      <AgainstBar against={sum.link} status={run.status} />
      <AgainstBar against={sum.whole} status={sum.whole.share > 1 ? 'over' : 'ok'} />
      <Still exact>
        <Crossings plan={plan} run={run} />
      </Still>
      <WhyFold run={run} />
      <PinPart jack={run.jack} run={run} />
      <AllowanceFold jacks={[run.jack]} />
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
  const reason = run.blocked?.reason;
  return (
    <Section title={t('run.title', { label: run.label })} aside={<StatusTag run={run} />}>
      <p className="said said-off">{blockedWords(plan, run)}</p>
      <div className="button-row">
        {by ? <Button onClick={() => showRefs(session, [by])}>{t('run.show-block')}</Button> : null}
        {reason === 'other-level' && plan.tables.levels.size > 1 ? (
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
      {reason === 'pin' ? <PinPart jack={run.jack} run={run} /> : null}
    </Section>
  );
}
