import { Link } from '@tanstack/react-router';
import { signOut, useSession } from '../../app/session.tsx';
import { ThemeToggle } from '../../app/theme.tsx';
import { ScanButton } from '../../scan/scan-button.tsx';
import { useWords } from '../../words/words.tsx';

interface BenchBarProps {
  readonly engine: string;
  /** What is done here: "measuring". */
  readonly doing: string;
}

/** A technician's head: who, which engine, where, and tap out. */
export function BenchBar({ engine, doing }: BenchBarProps) {
  const { measure } = useWords();
  const { person, terminal } = useSession();
  return (
    <header className="bar">
      <div className="bar-who">
        <b>{person.name}</b>
      </div>
      <div className="grow">
        <h1 className="bar-engine">{engine}</h1>
        <span className="note hide-narrow">{terminal === null ? doing : `${terminal.name}, ${doing}`}</span>
      </div>
      <Link className="btn" to="/bench">
        {measure.bench}
      </Link>
      <ScanButton />
      <ThemeToggle />
      <button type="button" className="btn" onClick={() => void signOut()}>
        {measure.tapOut}
      </button>
    </header>
  );
}
