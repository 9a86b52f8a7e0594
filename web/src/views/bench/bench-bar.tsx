import { useSession } from '../../app/session.tsx';
import { TerminalBar } from './terminal-bar.tsx';

interface BenchBarProps {
  readonly engine: string;
  /** What is done here: "measuring". */
  readonly doing: string;
}

/** The head of a bench: which engine, at which terminal, what is done. */
export function BenchBar({ engine, doing }: BenchBarProps) {
  const { terminal } = useSession();
  return (
    <TerminalBar>
      <h1>{engine}</h1>
      <span className="note">{terminal === null ? doing : `${terminal.name}, ${doing}`}</span>
    </TerminalBar>
  );
}
