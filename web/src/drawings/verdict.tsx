import { asksForAHand, type VerdictKind } from './verdict-kind.ts';
import { VerdictSign } from './verdict-sign.tsx';
import { type DrawingWords, englishWords } from './words.ts';

export type VerdictProps = {
  readonly verdict: VerdictKind;
  /** A fact beside the verdict, as how likely it is past. */
  readonly note?: string;
  readonly signWidth?: number;
  readonly words?: Pick<DrawingWords, 'verdict'>;
};

/** The verdict in words, with its sign. */
export function Verdict({ verdict, note, signWidth = 44, words = englishWords }: VerdictProps) {
  return (
    <span className={asksForAHand(verdict) ? 'verdict hot' : 'verdict'}>
      <VerdictSign verdict={verdict} width={signWidth} />
      <span className="verdict-words">
        <b>{words.verdict[verdict]}</b>
        {note === undefined ? null : <span className="verdict-note"> {note}</span>}
      </span>
    </span>
  );
}
