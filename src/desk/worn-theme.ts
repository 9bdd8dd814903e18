import { PALETTES } from '../drawing/palette.ts';

export type Theme = 'light' | 'dark';
const KEPT = 'theme';

/** What somebody chose on this device; null follows the device. A browser that keeps nothing follows it too. */
export function keptTheme(): Theme | null {
  try {
    const kept = localStorage.getItem(KEPT);
    return kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
}

export function keepTheme(theme: Theme): void {
  try {
    localStorage.setItem(KEPT, theme);
  } catch {
    // The choice then holds until the page is closed, which is all that a browser without storage can give.
  }
}

export const darkDevice = () => matchMedia('(prefers-color-scheme: dark)');

/** Puts a theme on the page: the attribute that the styles read, and the inks of the drawing as custom properties. */
export function wear(theme: Theme): void {
  const root = document.documentElement;
  root.dataset.theme = theme;
  for (const [ink, colour] of Object.entries(PALETTES[theme]))
    root.style.setProperty(`--ink-${ink}`, colour);
}

/** Puts the theme on the page that it begins with: the one that was chosen here, else the device's. */
export function wearFirst(): Theme {
  const first = keptTheme() ?? (darkDevice().matches ? 'dark' : 'light');
  wear(first);
  return first;
}
