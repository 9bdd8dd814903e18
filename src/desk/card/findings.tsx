import { useMemo } from 'react';
import type { Ref } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useSession, useShownPlan } from '../context.tsx';
import { Section } from '../controls/parts.tsx';
import { FindingCard } from '../finding-card.tsx';
import { findingsFor } from '../names.ts';

/**
 * What the survey finds about the thing on the card, at the card's foot: findings come and go while the thing is
 * dragged, and nothing else may move by it.
 */
export function CardFindings({ of }: { of: Ref }) {
  const plan = useShownPlan();
  const { table, id } = of;
  const findings = useSession((s) => s.survey?.findings ?? null);
  const these = useMemo(
    () => (findings ? findingsFor(plan, findings, { table, id }) : []),
    [plan, findings, table, id],
  );
  if (these.length === 0) return null;
  return (
    <div className="card-findings">
      {/* Other findings take the place of the last ones as a whole, so that none is pushed about by another's words. */}
      <Section
        key={these
          .map(({ rule, message, remedy }) => JSON.stringify([rule, message, remedy]))
          .join()}
        title={t('card.findings')}
        aside={these.length}
      >
        {these.map((finding, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: findings have no name of their own
          <FindingCard key={`${finding.rule} ${i}`} finding={finding} show={false} />
        ))}
      </Section>
    </div>
  );
}
