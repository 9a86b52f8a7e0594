import type { Movement } from '#contracts/parts.ts';
import { useMay } from '../../app/session.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Scrolled } from './scrolled.tsx';

const signed = (count: number): string => (count === 0 ? '' : count > 0 ? `+${count}` : `−${-count}`);

const actInWords = (act: string, words: Readonly<Record<string, string>>): string => words[act] ?? act;

/** The ledger of a part, newest first. */
export function Movements({ partId, movements }: { readonly partId: string; readonly movements: readonly Movement[] }) {
  const { part: words } = useWords().stores;
  const { storeFiles } = useWords();
  const seesMoney = useMay('money');
  const format = useFormat();
  return (
    <section>
      <h3>{words.movements}</h3>
      {movements.length === 0 ? <p className="nothing">{words.noMovements}</p> : null}
      {movements.length === 0 ? null : (
        <Scrolled label={words.movements}>
          <table>
            <thead>
              <tr>
                <th>{words.when}</th>
                <th>{words.act}</th>
                <th className="n">{words.change}</th>
                <th className="n">{words.reservedChange}</th>
                <th>{words.by}</th>
                <th>{words.why}</th>
              </tr>
            </thead>
            <tbody>
              {movements.map((movement) => (
                <tr key={movement.id}>
                  <td className="num nowrap">{format.date(movement.at)}</td>
                  <td>{actInWords(movement.act, words.acts)}</td>
                  <td className="n">{signed(movement.onHandChange)}</td>
                  <td className="n">{signed(movement.reservedChange)}</td>
                  <td>{movement.by}</td>
                  <td>
                    {[movement.jobNumber === null ? '' : words.jobNumber(movement.jobNumber), movement.reason]
                      .filter((text) => text !== '')
                      .join(', ')}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scrolled>
      )}
      {movements.length === 0 || !seesMoney ? null : (
        <a className="btn" href={`/api/parts/${partId}/movements.csv`} download="movements.csv">
          {storeFiles.out.allMovements}
        </a>
      )}
    </section>
  );
}
