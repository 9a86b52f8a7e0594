import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { signOut, useMay, useSession } from '../../app/session.tsx';
import { ThemeToggle } from '../../app/theme.tsx';
import { ScanButton } from '../../scan/scan-button.tsx';
import { useWords } from '../../words/words.tsx';
import './terminal-bar.css';

/** The head of a view that fills a terminal: who is here, which engine, the way back, tap out. */
export function TerminalBar({ children }: { readonly children: ReactNode }) {
  const { app, myBench } = useWords();
  const { person } = useSession();
  const bench = useMay('bench');
  return (
    <header className="bar">
      <b className="bar-who">{person.name}</b>
      <div className="bar-head">{children}</div>
      <Link className="btn" to={bench ? '/bench' : '/'}>
        {bench ? myBench.title : app.floor}
      </Link>
      <ScanButton />
      <ThemeToggle />
      <button type="button" className="btn" onClick={() => void signOut()}>
        {app.tapOut}
      </button>
    </header>
  );
}
