import { groupBy } from '../../base/group.ts';
import type { Finding, Severity } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { isUnplaced } from '../blank.ts';
import { usePlan, useRestingSurvey } from '../context.tsx';
import { Fold, Section } from '../controls/parts.tsx';
import { FindingCard } from '../finding-card.tsx';
import { alikeCount } from '../mend.ts';

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

/** Findings that are alike to look at still differ by what they are about. */
const keyOf = (finding: Finding, i: number): string =>
  `${finding.rule} ${finding.subjects.map((s) => s.table + s.id).join(' ')} ${i}`;

/** So many findings of one rule stand in full; of more of them the first does, and the others are folded away below it. */
const IN_FULL = 3;

/** What one rule found: what is the same for all of it is said once. */
function Alike({ findings }: { findings: readonly Finding[] }) {
  const [first, ...others] = findings;
  if (!first) return null;
  const card = (finding: Finding, i: number) => (
    <FindingCard key={keyOf(finding, i)} finding={finding} like={first} />
  );
  return (
    <>
      <FindingCard finding={first} alike={alikeCount(findings, first)} />
      {others.length < IN_FULL ? (
        others.map(card)
      ) : (
        <Fold title={t('checks.more-alike', { count: others.length })}>{others.map(card)}</Fold>
      )}
    </>
  );
}

export function ChecksShelf() {
  const findings = useRestingSurvey()?.findings ?? null;
  const unplaced = isUnplaced(usePlan());
  if (findings === null) return <p className="note">{t('checks.waiting')}</p>;
  if (findings.length === 0 && unplaced)
    return (
      <div className="said">
        <p>
          <strong>{t('checks.none')}</strong> {t('checks.none-words')}
        </p>
      </div>
    );
  if (findings.length === 0)
    return (
      <div className="said said-right">
        <p>
          <strong>{t('checks.clear')}</strong> {t('checks.clear-words')}
        </p>
      </div>
    );
  return (
    <>
      {SEVERITIES.map((severity) => {
        const these = findings.filter((f) => f.severity === severity);
        return these.length === 0 ? null : (
          <Section key={severity} title={t(`severities.${severity}`)} aside={these.length}>
            {[...groupBy(these, ({ rule }) => rule)].map(([rule, alike]) => (
              <Alike key={rule} findings={alike} />
            ))}
          </Section>
        );
      })}
      <p className="note">{t('checks.caution')}</p>
    </>
  );
}
