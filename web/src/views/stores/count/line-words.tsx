import type { CountLine } from '#contracts/counts.ts';
import { useWords } from '../../../words/words.tsx';

/** What tells one line from another: its part, number, lot, serial. */
export function LineName({ line }: { readonly line: CountLine }) {
  const { sheet: words } = useWords().counts;
  const told = [
    line.lotCode === '' ? '' : words.lot(line.lotCode),
    line.serial === null ? '' : words.serial(line.serial),
    line.condition,
    line.found ? words.found : '',
  ].filter((text) => text !== '');
  return (
    <>
      <b>{line.part.name}</b>{' '}
      <span className="note">
        <span className="num">{line.part.number}</span>
        {told.length === 0 ? '' : `, ${told.join(', ')}`}
      </span>
    </>
  );
}
