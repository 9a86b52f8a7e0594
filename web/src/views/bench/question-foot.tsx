import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { KeyHints } from './key-hints.tsx';
import type { Measuring } from './use-measuring.ts';

/** What was keyed last, how to take it back, and what a keyboard can say here. */
export function QuestionFoot({ measuring }: { readonly measuring: Measuring }) {
  return (
    <>
      <LastKeyed measuring={measuring} />
      <KeyHints />
    </>
  );
}

/** It is struck, not lost. */
function LastKeyed({ measuring }: { readonly measuring: Measuring }) {
  const { measure } = useWords();
  const format = useFormat();
  const { last, dimension } = measuring;
  if (last === undefined) return <p className="question-foot note">{measure.nothingYet}</p>;
  const text =
    last.dimension.method !== 'felt'
      ? format.decimal(last.taken.text)
      : last.taken.text === 'play'
        ? measure.felt.play
        : measure.felt.none;
  const single = last.dimension.positions.length === 1;
  const place = single
    ? last.dimension.name
    : last.dimension.code === dimension.code
      ? last.position.label
      : `${last.dimension.name}, ${last.position.label}`;
  return (
    <div className="question-foot">
      <span>
        <span className="note">{measure.last(place)}</span> <b className="num">{text}</b>{' '}
        {last.taken.state === 'waiting' ? <span className="note">{measure.waiting}</span> : null}
      </span>
      <Button aria-keyshortcuts="Control+Z" onClick={measuring.undoLast}>
        {measure.undo}
      </Button>
    </div>
  );
}
