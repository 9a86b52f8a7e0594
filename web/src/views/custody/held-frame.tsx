import type { ReactNode } from 'react';
import type { PeriodInShop } from '#contracts/custody-past.ts';
import { useWords } from '../../words/words.tsx';

/** The table of what is held; on a phone each row stands alone, its cells named by `data-label`. */
export function HeldFrame({
  columns,
  children,
}: {
  readonly columns: readonly string[];
  readonly children: ReactNode;
}) {
  return (
    <div className="scrolled">
      <table className="held-table">
        <thead>
          <tr>
            {columns.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}

/** Who holds it, with the sign of how. */
export function HolderCell({ label, holder }: { readonly label: string } & Pick<PeriodInShop, 'holder'>) {
  const { kind } = useWords().custody;
  return (
    <td data-label={label}>
      <span className={`holder-sign ${holder.kind}`} aria-hidden="true" /> {holder.name}{' '}
      <span className="note">{kind[holder.kind]}</span>
    </td>
  );
}
