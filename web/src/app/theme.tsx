import { useState } from 'react';
import { useWords } from '../words/words.tsx';

const KEY = 'crosshatch-theme';
type Theme = 'light' | 'dark';

/** The terminal's own choice, or the system's while none was made. */
export function applyStoredTheme(): void {
  const stored = localStorage.getItem(KEY);
  if (stored === 'light' || stored === 'dark') document.documentElement.dataset.theme = stored;
}

const shown = (): Theme =>
  document.documentElement.dataset.theme === 'dark' ||
  (document.documentElement.dataset.theme === undefined && matchMedia('(prefers-color-scheme: dark)').matches)
    ? 'dark'
    : 'light';

/** Paper by day, blueprint by night: kept by the terminal. */
export function ThemeToggle() {
  const { app } = useWords();
  const [theme, setTheme] = useState<Theme>(shown);
  const turn = () => {
    const next = theme === 'dark' ? 'light' : 'dark';
    document.documentElement.dataset.theme = next;
    localStorage.setItem(KEY, next);
    setTheme(next);
  };
  return (
    <button type="button" className="theme" onClick={turn} aria-label={app.dayOrNight} aria-pressed={theme === 'dark'}>
      <svg className="dwg" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
        <circle className="n" cx="10" cy="10" r="7" />
        <path className="f-ink" d="M10 3a7 7 0 0 1 0 14Z" />
      </svg>
    </button>
  );
}
