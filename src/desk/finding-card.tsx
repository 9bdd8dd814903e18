import type { MouseEvent } from 'react';
import { renderMessage } from '../base/message.ts';
import { findingSymbol } from '../drawing/symbols.ts';
import type { CommandName } from '../plan/commands/index.ts';
import type { Finding } from '../results/types.ts';
import { t } from '../text/index.ts';
import { useActions, useDesk, usePlan, useUnits } from './context.tsx';
import { MarksPicture } from './controls/marks.tsx';
import { Button } from './controls/parts.tsx';
import { mendAlike } from './mend.ts';
import { scaleTool, showFinding, takeScaleTool } from './show.ts';

/** A finding: what, how to mend it, why, and the buttons that show and mend it. */
export function FindingCard({
  finding,
  show = true,
  alike = 0,
  like,
}: {
  finding: Finding;
  show?: boolean;
  /** How many can be mended like this one, where this is the first of them. */
  alike?: number;
  /** One that stands before it: what both say in the same words is left to that. */
  like?: Finding;
}) {
  const { session } = useDesk();
  const actions = useActions();
  const units = useUnits();
  const { fix, severity } = finding;
  const scale = scaleTool(usePlan(), finding);
  const remedy = renderMessage(finding.remedy, units);
  return (
    <article className={`finding finding-${severity}`}>
      <p className="finding-what">
        <MarksPicture marks={findingSymbol(severity)} width={4.6} height={4.6} scale={4} />
        <span className="unseen">{t(`severity.${severity}`)}: </span>
        {renderMessage(finding.message, units)}
      </p>
      {remedy === (like && renderMessage(like.remedy, units)) ? null : (
        <p className="finding-remedy">{remedy}</p>
      )}
      <footer className="finding-foot">
        {fix ? (
          <Button
            look="main"
            onClick={once(() => actions.run(fix.command as CommandName, fix.args as never))}
          >
            {renderMessage(fix.label, units)}
          </Button>
        ) : null}
        {scale ? (
          <Button look="main" onClick={once(() => takeScaleTool(session, finding, scale.tool))}>
            {t(scale.name)}
          </Button>
        ) : null}
        {alike > 1 ? (
          <Button onClick={once(() => mendAlike(session, finding))}>
            {t('finding.mend-alike', { count: alike })}
          </Button>
        ) : null}
        {show && (finding.at || finding.subjects.length > 0) ? (
          <Button onClick={() => showFinding(session, finding)}>{t('finding.show')}</Button>
        ) : null}
        {finding.source === like?.source ? null : (
          <p className="finding-why">{t('finding.why', { source: finding.source })}</p>
        )}
      </footer>
    </article>
  );
}

/**
 * The second of two quick presses is not for the button that has come under the hand: what is mended goes, and the next
 * finding takes its place.
 */
const once =
  (act: () => unknown) =>
  ({ detail }: MouseEvent): void => {
    if (detail < 2) act();
  };
