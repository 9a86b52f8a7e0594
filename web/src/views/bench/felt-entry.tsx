import { useWords } from '../../words/words.tsx';
import { DonePanel } from './done-panel.tsx';
import { type EntryProps, useStripWidth } from './figure-entry.tsx';
import { MendCards } from './mend-cards.tsx';
import { QuestionFoot } from './question-foot.tsx';
import { QuestionHead } from './question-head.tsx';

/** Play felt by hand, or none: two big answers. */
export function FeltEntry({ measuring, open }: EntryProps) {
  const { measure } = useWords();
  const width = useStripWidth();
  const { place, next, dimension, standings } = measuring;
  const closed = place === undefined;
  const say = (felt: boolean) => {
    if (place !== undefined) measuring.keep([{ place, what: { felt } }]);
  };
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
            <button type="button" className="key felt-answer" onClick={() => say(false)}>
              {measure.felt.none}
            </button>
            <button type="button" className="key felt-answer" onClick={() => say(true)}>
              {measure.felt.play}
            </button>
          </>
        )}
        <button
          type="button"
          className="key act"
          disabled={standings.every(({ taken }) => taken.length === 0)}
          onClick={() => measuring.choose({ position: standings.at(-1)?.position.code ?? null })}
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
