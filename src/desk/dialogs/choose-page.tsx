import { t } from '../../text/index.ts';
import type { ChoosePage } from '../services.ts';
import { ask, Dialog } from './dialog.tsx';

/** Asks which page of a PDF to take. */
export const choosePage: ChoosePage = (name, pages) =>
  ask<number | null>((answer) => (
    <Dialog title={t('pages.title', { name })} wide onShut={() => answer(null)}>
      <p>{t('pages.words')}</p>
      <ul className="pages">
        {pages.map((page) => (
          <li key={page.page}>
            <button type="button" className="page" onClick={() => answer(page.page)}>
              <img src={page.thumbnail} alt="" />
              <span>{t('pages.page', { page: page.page })}</span>
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  ));
