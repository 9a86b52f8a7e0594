import { useState } from 'react';
import { NumberPad } from '../../kit/number-pad.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BigFigure } from './big-figure.tsx';
import { ChecksSaid } from './checks-said.tsx';
import { DonePanel } from './done-panel.tsx';
import { type EntryProps, useStripWidth } from './entry.ts';
import { type Filling, fillInOrder, valuesIn } from './measuring.ts';
import { MendCards, QuestionCard } from './mend-cards.tsx';
import { QuestionFoot } from './question-foot.tsx';
import { QuestionHead } from './question-head.tsx';
import { type KeyPress, letGo, useCommands, useKeys } from './use-keys.ts';
import type { Measuring, Said } from './use-measuring.ts';
import { type Previewed, usePreview } from './use-preview.ts';
import { ReadingStrip, VerdictPanel } from './verdict-panel.tsx';

/** What was typed at its places; a figure with the inch mark behind it is in inches, whatever the gauge shows. */
const saidOf = (filled: readonly Filling[]): readonly Said[] =>
  filled.map(({ place, value }) =>
    value.endsWith('"') ? { place, what: { text: value.slice(0, -1) }, unit: 'in' } : { place, what: { text: value } },
  );

interface SoFarProps {
  readonly measuring: Measuring;
  readonly previewed: Previewed;
  readonly filled: readonly Filling[];
  readonly onKept: () => void;
}

/** The verdict as it is typed. */
function SoFar({ measuring, previewed, filled, onKept }: SoFarProps) {
  const { measure } = useWords();
  const { dimension } = measuring;
  const width = useStripWidth();
  const preview = previewed.state === 'there' ? previewed.preview : undefined;
  const whole = preview?.findings.find((finding) => finding.dimension === dimension.code);
  const alone = preview?.typed.at(-1)?.alone ?? undefined;
  const finding = whole ?? alone;
  const asked = preview?.typed.findIndex(({ questions }) => questions.length > 0) ?? -1;
  const question = preview?.typed[asked]?.questions[0];
  const place = filled[asked]?.place;
  return (
    <>
      <ReadingStrip dimension={dimension} finding={question === undefined ? finding : undefined} width={width} />
      {previewed.state === 'asking' ? <p className="note">{measure.verdict.asking}</p> : null}
      {previewed.state === 'offline' ? <p className="note">{measure.verdict.later}</p> : null}
      {previewed.state === 'refused' ? <p className="hot">{previewed.words}</p> : null}
      {question !== undefined && place !== undefined ? (
        <QuestionCard
          title={question.refused ? measure.mend.titleRefused : measure.mend.title}
          words={question.words}
          suggestion={filled.length === 1 ? question.suggestion : null}
          mayConfirm={!question.refused && filled.length === 1}
          onSuggestion={({ value, unit: meant }) => {
            measuring.keep([{ place, what: { text: value }, unit: meant }]);
            onKept();
          }}
          onConfirm={(confirmReason) => {
            measuring.keep(saidOf(filled), { confirmReason });
            onKept();
          }}
        />
      ) : finding === undefined ? (
        preview === undefined ? null : (
          <p className="note">{measure.verdict.notYet}</p>
        )
      ) : (
        <VerdictPanel finding={finding} of={whole === undefined ? measure.verdict.alone : measure.verdict.whole} />
      )}
      <ChecksSaid preview={preview} />
    </>
  );
}

/** Figures from a gauge, a keyboard or the pad: one at a time, or several parted by spaces. */
export function FigureEntry({ measuring, open }: EntryProps) {
  const { measure } = useWords();
  const format = useFormat();
  const width = useStripWidth();
  const [text, setText] = useState('');
  const [notice, setNotice] = useState('');
  const { dimension, standings, place, unit, next } = measuring;
  const values = valuesIn(text, unit);
  const { filled, over } = place === undefined ? { filled: [], over: values } : fillInOrder(values, place, standings);
  const previewed = usePreview(measuring.bench.jobId, measuring.bodyOf(saidOf(filled)));

  const keep = (stay = false) => {
    setText('');
    if (place === undefined) {
      if (values.length > 0) setNotice(measure.notTaken(text.trim(), dimension.name));
      else if (next !== undefined) measuring.choose({ code: next.code });
      return;
    }
    setNotice(over.length > 0 ? measure.over(over.join(' ')) : '');
    if (filled.length > 0) measuring.keep(saidOf(filled), { stay });
  };
  const again = () => {
    if (filled.length > 0) keep(true);
    else {
      const before = measuring.last?.dimension.code === dimension.code ? measuring.last.position.code : undefined;
      const read = standings.findLast(({ taken }) => taken.length > 0)?.position.code;
      const position = before ?? read;
      if (position !== undefined) measuring.choose({ position });
    }
  };
  const hear = (press: KeyPress) => {
    if (press.type === 'enter') keep();
    else if (press.type === 'clear') {
      if (text === '') measuring.choose({ position: null });
      setText('');
    } else if (press.type === 'erase') setText((before) => before.slice(0, -1));
    else {
      letGo();
      setNotice('');
      setText((before) => (before.length < 200 ? before + press.text : before));
    }
  };
  useKeys(hear);
  useCommands({ again, undo: () => (text === '' ? measuring.undoLast() : setText('')) });
  const someRead = standings.some(({ taken }) => taken.length > 0);
  const keepLabel =
    place === undefined
      ? next === undefined
        ? measure.done.all
        : measure.done.next(next.name)
      : filled.length === 0
        ? measure.keepNothing
        : filled.length === 1
          ? measure.keep(filled[0]?.value ?? '')
          : measure.keepMany(filled.length);
  return (
    <>
      <section className="q" aria-label={dimension.name}>
        <QuestionHead measuring={measuring} onList={() => open('list')} />
        {place === undefined && text === '' ? null : <BigFigure measuring={measuring} text={text} open={open} />}
        {notice === '' ? null : (
          <p className="hot" role="alert">
            {notice}
          </p>
        )}
        <MendCards measuring={measuring} />
        {filled.length > 1 ? (
          <ul className="filled">
            {filled.map(({ place: at, value }) => (
              <li key={at.position.code}>
                <span className="note">{at.position.label}</span> <b className="num">{value}</b>
              </li>
            ))}
          </ul>
        ) : null}
        {place === undefined ? (
          <DonePanel measuring={measuring} width={width} />
        ) : (
          <SoFar measuring={measuring} previewed={previewed} filled={filled} onKept={() => setText('')} />
        )}
        <QuestionFoot measuring={measuring} />
      </section>
      <NumberPad
        label={measure.pad}
        eraseLabel={measure.erase}
        separator={format.decimal('0.5').slice(1, 2)}
        onKey={(key) => hear(key === 'Backspace' ? { type: 'erase' } : { type: 'text', text: key })}
        acts={[
          { id: 'again', label: measure.again, onPress: again, disabled: filled.length === 0 && !someRead },
          { id: 'cannot', label: measure.cannot, onPress: measuring.passOver, disabled: place === undefined },
          { id: 'gauge', label: measure.otherGauge, onPress: () => open('gauge') },
          {
            id: 'keep',
            label: keepLabel,
            onPress: () => keep(),
            main: true,
            disabled: place === undefined ? next === undefined : filled.length === 0,
          },
        ]}
      />
    </>
  );
}
