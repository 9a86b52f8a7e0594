import type { FindingFacts } from '#contracts/engines.ts';
import { useFormat } from '../../words/format.ts';

/** What a finding's readings were held against when it was judged: what disagreed stands out, what agreed is told quietly. */
export function CheckedAgainst({ checks }: { readonly checks: FindingFacts['crossChecks'] }) {
  const format = useFormat();
  return checks
    .toSorted((a, b) => Number(a.agrees) - Number(b.agrees))
    .map(({ agrees, words }) => (
      <span key={words} className={agrees ? 'note line more' : 'hot line'}>
        {format.decimal(words)}
      </span>
    ));
}
