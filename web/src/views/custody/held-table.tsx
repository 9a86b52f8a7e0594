import { Link } from '@tanstack/react-router';
import type { PeriodInShop } from '#contracts/custody-past.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { HeldFrame, HolderCell } from './held-frame.tsx';
import { HeldSubjects } from './held-subjects.tsx';
import { heldTogether } from './held-together.ts';

/** Who held each thing at the moment: where, since when, and by which act. */
export function HeldTable({ items }: { readonly items: readonly PeriodInShop[] }) {
  const { columns } = useWords().custody;
  return (
    <HeldFrame columns={[columns.what, columns.who, columns.where, columns.since, columns.until, columns.act]}>
      {heldTogether(items, actOf).map(({ item, itself, trays }) => (
        <tr key={item.id}>
          <th scope="row">
            <HeldSubjects engine={item.engine} itself={itself} trays={trays} />
          </th>
          <HeldCells of={item} />
        </tr>
      ))}
    </HeldFrame>
  );
}

const actOf = ({ from, until, reason, movedBy, handoverId }: PeriodInShop) => [
  from,
  until,
  reason,
  movedBy.id,
  handoverId,
];

function HeldCells({ of: { holder, place, from, until, reason, movedBy, handoverId } }: { readonly of: PeriodInShop }) {
  const words = useWords().custody;
  const format = useFormat();
  const { columns } = words;
  return (
    <>
      <HolderCell label={columns.who} holder={holder} />
      <td data-label={columns.where}>{place === null ? words.noPlace : place.name}</td>
      <td data-label={columns.since} className="num nowrap">
        {format.since(from)}
      </td>
      <td data-label={columns.until} className="num nowrap">
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
    </>
  );
}
