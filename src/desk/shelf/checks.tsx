import type { Finding, Severity } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { isUnplaced } from '../blank.ts';
import { usePlan, useRestingSurvey } from '../context.tsx';
import { Section } from '../controls/parts.tsx';
import { FindingCard } from '../finding-card.tsx';
import { alikeCount } from '../mend.ts';

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

/** Findings that are alike to look at still differ by what they are about. */
const keyOf = (finding: Finding, i: number): string =>
  `${finding.rule} ${finding.subjects.map((s) => s.table + s.id).join(' ')} ${i}`;

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
            {these.map((finding, i) => (
              <FindingCard
                key={keyOf(finding, i)}
                finding={finding}
                alike={
                  these.findIndex((f) => f.rule === finding.rule) === i
                    ? alikeCount(these, finding)
                    : 0
                }
              />
            ))}
          </Section>
        );
      })}
      <p className="note">{t('checks.caution')}</p>
    </>
  );
}
