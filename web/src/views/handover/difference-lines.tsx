import type { CountDifference } from '#contracts/custody.ts';
import { useWords } from '../../words/words.tsx';

interface DifferenceLinesProps {
  readonly differences: readonly CountDifference[];
  readonly open: boolean;
}

/** Each difference by the name of its piece, and what it means. */
export function DifferenceLines({ differences, open }: DifferenceLinesProps) {
  const words = useWords().handover;
  const fewer = differences.some(({ counted, given }) => counted < given);
  return (
    <div className="difference-lines">
      {differences.map(({ trayId, piece, counted, given }) => (
        <p key={`${trayId} ${piece}`}>
          <b className="hot">
            {counted < given
              ? words.fewer(given - counted, piece, counted, given)
              : words.more(counted - given, piece, counted, given)}
          </b>
        </p>
      ))}
      <p>{open && fewer ? words.mayBeInside : words.notInside}</p>
    </div>
  );
}
