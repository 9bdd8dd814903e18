import type { SessionApi } from '../board/session.ts';
import type { CommandName } from '../plan/commands/index.ts';
import type { Finding } from '../results/types.ts';

/** How many findings can be mended the way that one of them can. */
export const alikeCount = (findings: readonly Finding[], { rule, fix }: Finding): number =>
  fix ? findings.filter((f) => f.rule === rule && f.fix?.command === fix.command).length : 0;

/**
 * Mends a finding and all that are like it, as one step. Each waits for the survey after the one before, since mending
 * one may mend its neighbour too; whatever else is done meanwhile ends it.
 *
 * @returns ends it
 */
export function mendAlike(session: SessionApi, finding: Finding): () => void {
  const { rule, fix } = finding;
  const { actions, history, survey } = session.getState();
  const merge = `mend ${rule} ${history.cursor} ${history.steps.length}`;
  let left = survey ? alikeCount(survey.findings, finding) : 0;
  let mine = history.plan;
  let running = false;
  const go = () => {
    if (running) return;
    const now = session.getState();
    if (now.history.plan !== mine || left === 0) return stop();
    if (now.surveyed !== mine) return;
    const next = now.survey?.findings.find(
      (f) => f.rule === rule && f.fix?.command === fix?.command,
    );
    if (!next?.fix) return stop();
    left -= 1;
    running = true;
    const done = actions.run(next.fix.command as CommandName, next.fix.args as never, merge);
    actions.select([]);
    running = false;
    mine = session.getState().history.plan;
    if (!done) return stop();
    // Its survey may be there already.
    go();
  };
  const stop = session.subscribe(go);
  go();
  return stop;
}
