import { Link } from '@tanstack/react-router';
import { useWords } from '../../words/words.tsx';

interface SubjectsProps {
  readonly engine: { readonly id: string; readonly family: string; readonly serial: string };
  readonly itself: boolean;
  readonly trays: readonly string[];
}

/** An engine by its name, and which of its trays are with it; or the trays alone. */
export function HeldSubjects({ engine, itself, trays }: SubjectsProps) {
  const words = useWords().custody;
  return (
    <>
      <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
        {engine.family} <span className="num nowrap">{engine.serial}</span>
      </Link>
      {trays.length === 0 ? null : (
        <span className="its-trays num"> {itself ? words.withTrays(trays) : words.traysAlone(trays)}</span>
      )}
    </>
  );
}
