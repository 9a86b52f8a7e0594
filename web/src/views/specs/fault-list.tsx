import { FaultTable } from '../../app/fault-table.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useWords } from '../../words/words.tsx';
import { faultsIn } from './fault-scope.tsx';

interface Props {
  readonly error: Error | null;
  readonly title: string;
  /** Pointers to what fields tell themselves. */
  readonly told?: readonly string[];
  /** What a place is called; left out: by its pointer. */
  readonly place?: (pointer: string) => string;
}

/** Everything that was wrong with what was sent, each at its place; a refusal without places as a whole. */
export function FaultList({ error, title, told = [], place }: Props) {
  const { where, what } = useWords().specs.file;
  const { atFields } = useWords().specForms;
  const all = faultsIn(error);
  const faults = all.filter(({ pointer }) => !told.some((one) => pointer === one || pointer.startsWith(`${one}/`)));
  if (all.length === 0) return <Refusal error={error} />;
  if (faults.length === 0)
    return (
      <p className="field-error" role="alert">
        {atFields}
      </p>
    );
  return <FaultTable faults={faults} title={title} where={where} what={what} place={place} />;
}
