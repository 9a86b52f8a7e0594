import { useQuery } from '@tanstack/react-query';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { voicesQuery } from '../floor/voices-query.ts';

/** Why an open engine in my hands raises its voice: said to me first, not only to the floor. */
export function HeldVoices({ openingId }: { readonly openingId: string }) {
  const words = useWords().tally.voices;
  const format = useFormat();
  const raised = useQuery(voicesQuery).data?.items.find((item) => item.openingId === openingId);
  if (raised === undefined) return null;
  return (
    <ul className="held-voices" aria-label={words.mine}>
      {raised.voices.map(({ kind, words: said, since }) => (
        <li key={kind}>
          <b className="hot">{said}</b> <span className="note">{words.since(format.since(since))}</span>
        </li>
      ))}
    </ul>
  );
}
