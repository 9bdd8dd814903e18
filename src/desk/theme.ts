import { useEffect, useState } from 'react';
import { darkDevice, keepTheme, keptTheme, type Theme, wear, wearFirst } from './worn-theme.ts';

/** The theme of the page, and a way to change it. */
export function useTheme(): readonly [Theme, (theme: Theme) => void] {
  // Before the first paint, so that nobody sees the other theme flash by.
  const [theme, setTheme] = useState<Theme>(wearFirst);
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
      keepTheme(next);
      setTheme(next);
    },
  ];
}
