import { useQuery } from '@tanstack/react-query';
import type { ProcedureDocument, ProcedureFaults } from '#contracts/procedure-documents.ts';
import { compareProcedures } from '#domain/procedures/compare.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { faultsQuery, procedureQuery } from './procedures-queries.ts';

interface FaultsProps {
  readonly faults: ProcedureFaults['items'];
  /** Goes to the step a fault is in. */
  readonly onGoTo?: (step: number) => void;
}

/** What keeps it from being published, each by step and field. */
export function FaultsFound({ faults, onGoTo }: FaultsProps) {
  const { procedures: words } = useWords();
  if (faults.length === 0) return <p className="note">{words.noFaults}</p>;
  return (
    <section className="faults-found" aria-label={words.faults(faults.length)}>
      <h2>{words.faults(faults.length)}</h2>
      <ul>
        {faults.map(({ pointer, step, field, detail }) => (
          <li key={pointer + detail}>
            {step === null || onGoTo === undefined ? (
              <b>{step === null ? words.whole : words.atStep(step, words.fields[field] ?? field)}</b>
            ) : (
              <Button onClick={() => onGoTo(step)}>{words.atStep(step, words.fields[field] ?? field)}</Button>
            )}
            <span>{detail}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function VersionFaults({ versionId }: { readonly versionId: string }) {
  const faults = useQuery(faultsQuery(versionId)).data;
  return faults === undefined ? null : <FaultsFound faults={faults.items} />;
}

/** What differs from the version before it. */
export function Changes({ after, before }: { readonly after: ProcedureDocument; readonly before: string }) {
  const { procedures: words } = useWords();
  const older = useQuery(procedureQuery(before)).data?.body;
  if (older === undefined) return null;
  const changes = compareProcedures(older, after);
  return (
    <details className="changes">
      <summary>{words.changes(changes.length)}</summary>
      {changes.length === 0 ? null : (
        <ul>
          {changes.map(({ what, step, title, fields }) => (
            <li key={`${what} ${step} ${title}`}>
              <b>{words.change[what]}</b> <span>{step === null ? words.whole : words.stepName(step, title)}</span>{' '}
              <span className="note">{fields.map((field) => words.fields[field] ?? field).join(', ')}</span>
            </li>
          ))}
        </ul>
      )}
    </details>
  );
}
