import { useInfiniteQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Movement, PartSheet } from '#contracts/parts.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Scrolled } from './scrolled.tsx';
import { earlierMovementsQuery } from './stores-queries.ts';

const signed = (count: number): string => (count === 0 ? '' : count > 0 ? `+${count}` : `−${-count}`);

const actInWords = (act: string, words: Readonly<Record<string, string>>): string => words[act] ?? act;

interface MovementsProps {
  readonly partId: string;
  readonly newest: PartSheet['movements'];
}

/** The ledger of a part, newest first: the last of it, and page by page back to its first day. */
export function Movements({ partId, newest }: MovementsProps) {
  const [asked, setAsked] = useState(false);
  const earlier = useInfiniteQuery({
    ...earlierMovementsQuery(partId, newest.next),
    enabled: asked && newest.next !== null,
  });
  const before = asked ? (earlier.data?.pages.flatMap(({ items }) => items) ?? []) : [];
  const movements: readonly Movement[] = [...newest.items, ...before];
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
      {earlier.isError ? <Failed error={earlier.error} again={() => void earlier.refetch()} /> : null}
      {newest.next !== null && (earlier.data === undefined || earlier.hasNextPage) ? (
        <Button
          disabled={earlier.isFetching}
          onClick={() => (earlier.data === undefined ? setAsked(true) : void earlier.fetchNextPage())}
        >
          {words.earlierMovements}
        </Button>
      ) : null}
      {movements.length === 0 || !seesMoney ? null : (
        <a className="btn" href={`/api/parts/${partId}/movements.csv`} download="movements.csv">
          {storeFiles.out.allMovements}
        </a>
      )}
    </section>
  );
}
