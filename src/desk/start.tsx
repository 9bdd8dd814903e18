import { t } from '../text/index.ts';
import { useActions, useDesk } from './context.tsx';
import { Button } from './controls/parts.tsx';
import { choosePage } from './dialogs/choose-page.tsx';

/** What stands over an empty job: three ways to begin, in plain words. */
export function Start({ onShut }: { onShut(): void }) {
  const { services } = useDesk();
  const actions = useActions();
  return (
    <section className="start" aria-labelledby="start-title">
      <h2 id="start-title">{t('start.title')}</h2>
      <p className="start-lead">{t('start.lead')}</p>
      <ol className="start-ways">
        <li>
          <h3>{t('start.bring')}</h3>
          <p>{t('start.bring-words')}</p>
          <Button look="main" onClick={() => services.choosePicture(choosePage)}>
            {t('base.choose')}
          </Button>
        </li>
        <li>
          <h3>{t('start.blank')}</h3>
          <p>{t('start.blank-words')}</p>
          <Button
            onClick={() => {
              onShut();
              actions.set({ leg: 'rooms' });
              actions.pick('room');
            }}
          >
            {t('start.blank-go')}
          </Button>
        </li>
        <li>
          <h3>{t('start.sample')}</h3>
          <p>{t('start.sample-words')}</p>
          <div className="button-row">
            <Button onClick={() => services.openSample('restaurant')}>
              {t('start.sample-restaurant')}
            </Button>
            <Button onClick={() => services.openSample('cafe')}>{t('start.sample-cafe')}</Button>
          </div>
        </li>
      </ol>
      <footer className="start-foot">
        <p>{t('start.kept')}</p>
        <Button look="quiet" onClick={() => services.openFile()}>
          {t('start.open')}
        </Button>
      </footer>
    </section>
  );
}
