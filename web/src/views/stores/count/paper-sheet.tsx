import type { CountSheet } from '#contracts/counts.ts';
import { useWords } from '../../../words/words.tsx';
import { LineName } from './line-words.tsx';

/** The sheet on paper, as blind as on screen: what to count, and an empty box for each. */
export function PaperSheet({ sheet }: { readonly sheet: CountSheet }) {
  const { sheet: words } = useWords().counts;
  return (
    <div className="count-paper">
      <h1>{words.title(sheet.number)}</h1>
      {sheet.bins.map((bin) => (
        <table key={bin.id}>
          <caption>{words.bin(bin.code)}</caption>
          <thead>
            <tr>
              <th>{words.paperWhat}</th>
              <th>{words.paperBlank}</th>
            </tr>
          </thead>
          <tbody>
            {sheet.lines
              .filter((line) => line.bin.id === bin.id && line.seen === null)
              .map((line) => (
                <tr key={line.id}>
                  <td>
                    <LineName line={line} />
                  </td>
                  <td />
                </tr>
              ))}
            <tr>
              <td>{words.paperFound}</td>
              <td />
            </tr>
          </tbody>
        </table>
      ))}
      <p>{words.paperBy} ______________________</p>
    </div>
  );
}
