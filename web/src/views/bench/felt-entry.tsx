import { useState } from 'react';
import { useWords } from '../../words/words.tsx';
import { DonePanel } from './done-panel.tsx';
import { type EntryProps, useStripWidth } from './entry.ts';
import { KeyName } from './key-hints.tsx';
import { MendCards } from './mend-cards.tsx';
import { QuestionFoot } from './question-foot.tsx';
import { QuestionHead } from './question-head.tsx';
import { type KeyPress, letGo, useCommands, useKeys } from './use-keys.ts';

/** Play felt by hand, or none: two big answers; on a keyboard 0 or 1, kept by Enter like any figure. */
export function FeltEntry({ measuring, open }: EntryProps) {
  const { measure } = useWords();
  const width = useStripWidth();
  const { place, next, dimension, standings } = measuring;
  const closed = place === undefined;
  const [typed, setTyped] = useState<boolean | null>(null);
  const say = (felt: boolean) => {
    setTyped(null);
    if (place !== undefined) measuring.keep([{ place, what: { felt } }]);
  };
  const again = () => measuring.choose({ position: standings.at(-1)?.position.code ?? null });
  const hear = (press: KeyPress) => {
    if (press.type === 'enter') {
      if (typed !== null) say(typed);
      else if (closed && next !== undefined) measuring.choose({ code: next.code });
    } else if (press.type === 'text') {
      letGo();
      if (!closed) setTyped(press.text === '1' ? true : press.text === '0' ? false : typed);
    } else {
      if (typed === null) measuring.choose({ position: null });
      setTyped(null);
    }
  };
  useKeys(hear);
  useCommands({ again, undo: () => (typed === null ? measuring.undoLast() : setTyped(null)) });
  const answer = (felt: boolean, words: string, key: string) => (
    <button type="button" className="key felt-answer act" aria-pressed={typed === felt} onClick={() => say(felt)}>
      {words}
      <KeyName>{key}</KeyName>
    </button>
  );
  return (
    <>
      <section className="q" aria-label={dimension.name}>
        <QuestionHead measuring={measuring} onList={() => open('list')} />
        <MendCards measuring={measuring} />
        {closed ? (
          <DonePanel measuring={measuring} width={width} />
        ) : (
          <p className="verdict-panel">{measure.felt.ask}</p>
        )}
        <QuestionFoot measuring={measuring} />
      </section>
      <section className="pad felt" aria-label={measure.felt.title}>
        {closed ? null : (
          <>
            {answer(false, measure.felt.none, '0')}
            {answer(true, measure.felt.play, '1')}
          </>
        )}
        <button
          type="button"
          className="key act"
          disabled={standings.every(({ taken }) => taken.length === 0)}
          onClick={again}
        >
          {measure.again}
        </button>
        <button type="button" className="key act" disabled={closed} onClick={measuring.passOver}>
          {measure.cannot}
        </button>
        <span />
        {closed ? (
          <button
            type="button"
            className="key go"
            disabled={next === undefined}
            onClick={() => (next === undefined ? undefined : measuring.choose({ code: next.code }))}
          >
            {next === undefined ? measure.done.all : measure.done.next(next.name)}
          </button>
        ) : null}
      </section>
    </>
  );
}
