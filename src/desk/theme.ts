import { useEffect, useState } from 'react';
import { PALETTES } from '../drawing/palette.ts';

export type Theme = 'light' | 'dark';
const KEPT = 'theme';

/** What somebody chose on this device; null follows the device. A browser that keeps nothing follows it too. */
function keptTheme(): Theme | null {
  try {
    const kept = localStorage.getItem(KEPT);
    return kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
}

function keep(theme: Theme): void {
  try {
    localStorage.setItem(KEPT, theme);
  } catch {
    // The choice then holds until the page is closed, which is all that a browser without storage can give.
  }
}

const darkDevice = () => matchMedia('(prefers-color-scheme: dark)');

/** Puts a theme on the page: the attribute that the styles read, and the inks of the drawing as custom properties. */
function wear(theme: Theme): void {
  const root = document.documentElement;
  root.dataset['theme'] = theme;
  for (const [ink, colour] of Object.entries(PALETTES[theme]))
    root.style.setProperty(`--ink-${ink}`, colour);
}

/** The theme of the page, and a way to change it. */
export function useTheme(): readonly [Theme, (theme: Theme) => void] {
  const [theme, setTheme] = useState<Theme>(() => {
    const first = keptTheme() ?? (darkDevice().matches ? 'dark' : 'light');
    // Before the first paint, so that nobody sees the other theme flash by.
    wear(first);
    return first;
  });
  useEffect(() => {
    const device = darkDevice();
    const follow = () => {
      if (keptTheme() === null) setTheme(device.matches ? 'dark' : 'light');
    };
    device.addEventListener('change', follow);
    return () => device.removeEventListener('change', follow);
  }, []);
  useEffect(() => wear(theme), [theme]);
  return [
    theme,
    (next) => {
      keep(next);
      setTheme(next);
    },
  ];
}
