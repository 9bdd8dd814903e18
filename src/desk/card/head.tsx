import { type ReactNode, useMemo } from 'react';
import type { Ref } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useSession, useShownPlan } from '../context.tsx';
import { Section } from '../controls/parts.tsx';
import { FindingCard } from '../finding-card.tsx';
import { findingsFor } from '../names.ts';

/** The head of a card: its symbol, what it is, and what the survey finds about it. */
export function CardHead({
  of,
  picture,
  title,
  below,
}: {
  of?: Ref;
  picture?: ReactNode;
  title: string;
  below?: ReactNode;
}) {
  return (
    <>
      <header className="card-head">
        {picture ? <span className="card-picture">{picture}</span> : null}
        <div className="grow">
          <h2 className="card-title">{title}</h2>
          {below ? <p className="card-below">{below}</p> : null}
        </div>
      </header>
      {of ? <Findings of={of} /> : null}
    </>
  );
}

function Findings({ of }: { of: Ref }) {
  const plan = useShownPlan();
  const { table, id } = of;
  const findings = useSession((s) => s.survey?.findings ?? null);
  const these = useMemo(
    () => (findings ? findingsFor(plan, findings, { table, id }) : []),
    [plan, findings, table, id],
  );
  if (these.length === 0) return null;
  return (
    <Section title={t('card.findings')} aside={these.length}>
      {these.map((finding, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: findings have no name of their own
        <FindingCard key={`${finding.rule} ${i}`} finding={finding} show={false} />
      ))}
    </Section>
  );
}
