import { useEffect, useRef, useState } from 'react';
import type { KeyReadings } from '#contracts/readings.ts';
import type { Quantity } from '#contracts/wire.ts';
import type { Entry } from '../../app/outbox.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { keyedText } from './measuring.ts';
import type { Measuring } from './use-measuring.ts';

interface QuestionCardProps {
  readonly title: string;
  readonly words: string;
  readonly suggestion: Quantity | null;
  /** A reason settles it. */
  readonly mayConfirm: boolean;
  readonly onSuggestion: (suggestion: Quantity) => void;
  readonly onConfirm: (reason: string) => void;
  readonly onDrop?: () => void;
  readonly onAgain?: () => void;
}

/** While nothing has the focus, Tab goes to what is asked, not to the head of the page. */
function useTabInto() {
  const card = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const free = document.activeElement === null || document.activeElement === document.body;
      if (event.key !== 'Tab' || event.shiftKey || event.defaultPrevented || !free) return;
      card.current?.querySelector<HTMLElement>('button, input')?.focus();
      event.preventDefault();
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, []);
  return card;
}

/** What is asked about a reading: one tap puts the slip right, or a reason lets it stand. */
export function QuestionCard(props: QuestionCardProps) {
  const { title, words, suggestion, mayConfirm, onSuggestion, onConfirm, onDrop, onAgain } = props;
  const { measure } = useWords();
  const format = useFormat();
  const card = useTabInto();
  const [saying, setSaying] = useState(false);
  const [reason, setReason] = useState('');
  return (
    <div ref={card} className="mend" role="alert">
      <h3>{title}</h3>
      <p>{words}</p>
      <div className="mend-acts">
        {suggestion === null ? null : (
          <Button kind="main" onClick={() => onSuggestion(suggestion)}>
            {measure.mend.sendAs(format.decimal(suggestion.value), suggestion.unit)}
          </Button>
        )}
        {mayConfirm && !saying ? <Button onClick={() => setSaying(true)}>{measure.mend.right}</Button> : null}
        {onAgain === undefined ? null : <Button onClick={onAgain}>{measure.mend.again}</Button>}
        {onDrop === undefined ? null : <Button onClick={onDrop}>{measure.mend.anew}</Button>}
      </div>
      {saying ? (
        <form
          className="mend-reason"
          onSubmit={(event) => {
            event.preventDefault();
            if (reason.trim() !== '') onConfirm(reason.trim());
          }}
        >
          <div className="mend-acts">
            {measure.mend.stock.map((stock) => (
              <Button key={stock} onClick={() => onConfirm(stock)}>
                {stock}
              </Button>
            ))}
          </div>
          <Field label={measure.mend.because} big>
            {(input) => <input {...input} maxLength={300} value={reason} onChange={(e) => setReason(e.target.value)} />}
          </Field>
          <Button type="submit" disabled={reason.trim() === ''}>
            {measure.mend.keepIt}
          </Button>
        </form>
      ) : null}
    </div>
  );
}

const withSuggestion =
  (suggestion: Quantity) =>
  (body: KeyReadings): KeyReadings => ({
    ...body,
    readings: body.readings.map((reading) => ({ ...reading, text: suggestion.value, unit: suggestion.unit })),
  });

function RefusedEntry({ entry, measuring }: { readonly entry: Entry; readonly measuring: Measuring }) {
  const { measure } = useWords();
  const format = useFormat();
  const { refusal } = entry;
  if (refusal === null || entry.kind === 'pull') return null;
  const body = entry.kind === 'reading' ? (entry.body as KeyReadings) : undefined;
  const reading = body?.readings[0];
  const dimension = measuring.bench.dimensions.find(({ code }) => code === body?.dimension);
  const places = (body?.readings ?? []).map(
    ({ position }) => dimension?.positions.find(({ code }) => code === position)?.label ?? position,
  );
  const code = refusal.type.split(':').at(-1);
  const asked = code === 'unit-slip' || code === 'implausible';
  const title =
    reading === undefined || dimension === undefined
      ? measure.mend.titleRefused
      : measure.mend.of(
          dimension.name,
          places.join(', '),
          (body?.readings ?? []).map((one) => format.decimal(keyedText(one))).join(' '),
        );
  return (
    <QuestionCard
      title={title}
      words={refusal.detail}
      suggestion={refusal.suggestion ?? null}
      mayConfirm={asked}
      onSuggestion={(suggestion) => measuring.mend(entry, withSuggestion(suggestion))}
      onConfirm={(confirmReason) => measuring.mend(entry, (before) => ({ ...before, confirmReason }))}
      onDrop={() => measuring.drop(entry)}
      {...(asked ? {} : { onAgain: () => measuring.mend(entry, (before) => before) })}
    />
  );
}

/** Entries the server refused: each waits here to be mended, whichever dimension it is of. */
export function MendCards({ measuring }: { readonly measuring: Measuring }) {
  return measuring.entries.map((entry) =>
    entry.refusal === null ? null : <RefusedEntry key={entry.key} entry={entry} measuring={measuring} />,
  );
}
