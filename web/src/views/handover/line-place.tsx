import type { HandoverTray } from '#contracts/custody.ts';
import { useWords } from '../../words/words.tsx';

type Line = HandoverTray['lines'][number];

/** Of a line, as far as it may be told: which places of its rack lay in this tray, and in which others more of it lay. */
export function useLinePlace(): (line: Line) => string {
  const { handover: words, tally } = useWords();
  return ({ places, alsoIn }) => {
    const here = places === null || places.length === 0 ? [] : [words.places(places.join(', '))];
    const others = alsoIn.map(({ tray }) => tally.rack.where(tray?.name ?? null));
    return [...here, ...(others.length === 0 ? [] : [words.alsoIn(others.join(', '))])].join('; ');
  };
}

/** Below the name of a line; nothing when it all lies in this tray, in no rack. */
export function LinePlace({ line }: { readonly line: Line }) {
  const place = useLinePlace()(line);
  return place === '' ? null : <span className="line-place">{place}</span>;
}
