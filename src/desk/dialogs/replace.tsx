import type { Session, SessionApi } from '../../board/session.ts';
import { job } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { isBlank } from '../blank.ts';
import { Button } from '../controls/parts.tsx';
import type { Services } from '../services.ts';
import { ask, Dialog } from './dialog.tsx';

/**
 * Whether taking another job in hand would lose something. As a rule it does not, since undo brings the job back; but
 * where this device could not keep it, it would be gone with the page.
 */
export const wouldLose = ({ history, kept }: Pick<Session, 'history' | 'kept'>): boolean =>
  kept.state === 'failed' && history.cursor > 0 && !isBlank(history.plan);

/** Takes another job in hand, after asking where something would be lost. */
export async function replaceJob(
  session: SessionApi,
  services: Services,
  act: () => Promise<void>,
): Promise<void> {
  const now = session.getState();
  if (wouldLose(now) && !(await mayReplace(job(now.history.plan).name, services))) return;
  await act();
}

const mayReplace = (name: string, services: Services): Promise<boolean> =>
  ask<boolean>((answer) => (
    <Dialog title={t('replace.title', { job: name })} onShut={() => answer(false)}>
      <p>{t('replace.words')}</p>
      <footer className="dialog-foot">
        <Button onClick={() => services.saveFile()}>{t('replace.save')}</Button>
        <span className="grow" />
        <Button onClick={() => answer(false)}>{t('replace.keep')}</Button>
        <Button look="warn" onClick={() => answer(true)}>
          {t('replace.go')}
        </Button>
      </footer>
    </Dialog>
  ));
