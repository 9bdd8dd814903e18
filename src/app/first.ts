import { wearFirst } from '../desk/worn-theme.ts';

/**
 * The first thing that runs: it puts the theme on the page, whose empty desk is then seen at once (`index.html`), and
 * goes for all the rest.
 */
wearFirst();

import('./main.tsx').catch(() => {
  const words = document.querySelector('.first .job-state');
  if (words) words.textContent = 'Not all of the page has come. Reload it.';
});
