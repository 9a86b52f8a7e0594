import type { ToBuy } from '#contracts/supply.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Why it is bought: for which jobs how many, or because the shelf runs low; and what a pack leaves over. */
export function BuyingReason({ line }: { readonly line: ToBuy }) {
  const { buying: words } = useWords().stores;
  const { packs: packWords } = useWords();
  const { number } = useFormat();
  if (line.why === 'low') return words.low(line);
  const over = line.quantity - line.needs.reduce((sum, { quantity }) => sum + quantity, 0);
  return (
    <>
      {line.needs.map(({ job, quantity, rule }) => {
        const whom = job === null ? packWords.forShelf : words.short(job.number, job.family, job.serial);
        return (
          <span key={job?.id ?? ''} className="buying-need">
            {rule === '' ? null : <b>{rule} </b>}
            {line.packSize === 1 ? whom : packWords.needed(number(quantity), whom)}
          </span>
        );
      })}
      {line.insteadOf.map(({ id, number: old }) => (
        <span key={id} className="buying-need note">
          {words.insteadOf(old)}
        </span>
      ))}
      {over > 0 ? <span className="buying-need note">{packWords.over(number(over))}</span> : null}
    </>
  );
}

/** What the vendor asks: for one, or for a pack of so many. */
export function BuyingPrice({ line }: { readonly line: ToBuy }) {
  const { packs: words } = useWords();
  const format = useFormat();
  if (line.price === null) return null;
  return (
    <>
      {format.money(line.price)}
      {line.packSize === 1 ? null : <span className="note nowrap"> {words.of(format.number(line.packSize))}</span>}
    </>
  );
}
