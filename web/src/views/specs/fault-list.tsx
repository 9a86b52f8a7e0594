import { RefusedError } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWords } from '../../words/words.tsx';

/** Everything that was wrong with what was sent, each at its place; a refusal without places as a whole. */
export function FaultList({ error, title }: { readonly error: Error | null; readonly title: string }) {
  const { file: words } = useWords().specs;
  const faults = error instanceof RefusedError ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return (
    <div role="alert">
      <p className="field-error">{title}</p>
      <div className="scroll-x">
        <table className="faults">
          <thead>
            <tr>
              <th scope="col">{words.where}</th>
              <th scope="col">{words.what}</th>
            </tr>
          </thead>
          <tbody>
            {faults.map(({ pointer, detail }) => (
              <tr key={pointer + detail}>
                <td className="num">{pointer}</td>
                <td>{detail}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
