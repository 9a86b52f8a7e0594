import type { ShimAnswer } from '#contracts/assembly.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface ShimAnswerPanelProps {
  readonly answer: ShimAnswer;
  readonly mayTake: boolean;
  /** null: it is part of an answer for all valves, and taken with them. */
  readonly onTake: (() => void) | null;
}

const degrees = (value: number): string => `${Math.abs(value)}°`;

function Turn({ turn }: { readonly turn: NonNullable<ShimAnswer['turn']> }) {
  const { assemble } = useWords();
  const words = assemble.lash;
  const [least, middle, most] = [turn.least, turn.middle, turn.most].map(({ value }) => Number(value));
  if (least === undefined || middle === undefined || most === undefined) return null;
  const said =
    least >= 0
      ? words.turnIn(degrees(least), degrees(most))
      : most <= 0
        ? words.turnOut(degrees(most), degrees(least))
        : words.turnBoth(`${least}°`, `${most}°`);
  return (
    <>
      <p className="answer-figure">{said}</p>
      {least < 0 && most > 0 ? null : <p>{words.turnMiddle(degrees(middle))}</p>}
    </>
  );
}

/** The shim that would do, what the lash is then, how sure that is, and where it comes from; or the turn of a screw. */
export function ShimAnswerPanel({ answer, mayTake, onTake }: ShimAnswerPanelProps) {
  const { assemble } = useWords();
  const words = assemble.lash;
  const format = useFormat();
  const { chosen, why, turn } = answer;
  return (
    <div className="shim-answer" aria-live="polite">
      {why === null ? null : <p className="hot">{why}</p>}
      {turn === null ? null : <Turn turn={turn} />}
      {chosen === null ? null : (
        <>
          <p className="answer-figure">{words.proposal(format.decimal(chosen.thickness.value))}</p>
          <p>
            {words.after(
              format.decimal(chosen.after.low),
              chosen.after.high === null ? '…' : format.decimal(chosen.after.high),
            )}
            {': '}
            <b className={chosen.standing === 'out' ? 'hot' : undefined}>{words[chosen.standing]}</b>
          </p>
          <p className={chosen.from === 'bin' ? 'quiet' : chosen.from === 'buy' ? 'hot' : undefined}>{chosen.words}</p>
          {onTake === null ? null : (
            <Button big kind="main" disabled={!mayTake} onClick={onTake}>
              {chosen.from === 'stays' ? words.keep : words.take(format.decimal(chosen.thickness.value))}
            </Button>
          )}
        </>
      )}
    </div>
  );
}
