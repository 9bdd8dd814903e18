import { useEffect, useRef, useState } from 'react';
import { t } from '../../text/index.ts';
import type { ChoosePage, PageChoice } from '../services.ts';
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
              <PagePicture of={page} />
              <span>{t('pages.page', { page: page.page })}</span>
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  ));

/** A small picture of a page, drawn once somebody comes near it; an empty sheet until then. */
function PagePicture({ of }: { of: PageChoice }) {
  const place = useRef<HTMLSpanElement>(null);
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    let gone = false;
    const near = new IntersectionObserver((seen) => {
      if (!seen.some((one) => one.isIntersecting)) return;
      near.disconnect();
      void of.thumbnail().then((drawn) => {
        if (!gone) setAddress(drawn);
      });
    });
    near.observe(place.current!);
    return () => {
      gone = true;
      near.disconnect();
    };
  }, [of]);
  return (
    <span ref={place} className="page-picture">
      {address === null ? null : <img src={address} alt="" />}
    </span>
  );
}
