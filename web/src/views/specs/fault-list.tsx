import { RefusedError } from '../../app/api.ts';
import { FaultTable } from '../../app/fault-table.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useWords } from '../../words/words.tsx';

/** Everything that was wrong with what was sent, each at its place; a refusal without places as a whole. */
export function FaultList({ error, title }: { readonly error: Error | null; readonly title: string }) {
  const { where, what } = useWords().specs.file;
  const faults = error instanceof RefusedError ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return <FaultTable faults={faults} title={title} where={where} what={what} />;
}
