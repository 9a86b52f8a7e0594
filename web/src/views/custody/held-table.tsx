import { Link } from '@tanstack/react-router';
import type { PeriodInShop } from '#contracts/custody-past.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Who held each thing at the moment: where, since when, and by which act. */
export function HeldTable({ items }: { readonly items: readonly PeriodInShop[] }) {
  const words = useWords().custody;
  const format = useFormat();
  const { columns } = words;
  return (
    <div className="scrolled">
      <table className="held-table">
        <thead>
          <tr>
            {[columns.what, columns.who, columns.where, columns.since, columns.until, columns.act].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {items.map(({ id, subject, engine, holder, place, from, until, reason, movedBy, handoverId }) => (
            <tr key={id}>
              <th scope="row">
                {subject.kind === 'engine' ? (
                  <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
                    {engine.family} <span className="num nowrap">{engine.serial}</span>
                  </Link>
                ) : (
                  <>
                    {words.tray(subject.name)} <span className="note">{words.ofEngine(engine.serial)}</span>
                  </>
                )}
              </th>
              <td data-label={columns.who}>
                <span className={`holder-sign ${holder.kind}`} aria-hidden="true" /> {holder.name}{' '}
                <span className="note">{words.kind[holder.kind]}</span>
              </td>
              <td data-label={columns.where}>{place === null ? words.noPlace : place.name}</td>
              <td data-label={columns.since} className="num">
                {format.since(from)}
              </td>
              <td data-label={columns.until} className="num">
                {until === null ? words.still : format.since(until)}
              </td>
              <td data-label={columns.act}>
                {words.by(reason, movedBy.name)}
                {handoverId === null ? null : (
                  <>
                    {': '}
                    <Link to="/handovers/$handoverId" params={{ handoverId }}>
                      {words.handover}
                    </Link>
                  </>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
