import { t } from '../text/index.ts';
import { takeOver } from './one-tab.ts';

/** What a tab shows while another one has the job open: two that write would spoil each other's work. */
export function Elsewhere({ lost }: { readonly lost: boolean }) {
  return (
    <main className="stopped">
      <h1>{t(lost ? 'tabs.lost' : 'tabs.elsewhere')}</h1>
      <p>{t(lost ? 'tabs.lost-words' : 'tabs.elsewhere-words')}</p>
      <p>
        <button type="button" onClick={takeOver}>
          {t('tabs.here')}
        </button>
      </p>
    </main>
  );
}
