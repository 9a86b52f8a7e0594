import { useState } from 'react';
import type { QuoteDraft } from '#contracts/counter.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { sumOf } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { type EditedLine, editedLines, emptyLine, lineKinds, pricedLine, quoteOf } from './quote-lines.ts';

/** Writes a quote: the draft's lines, changed, added to, priced; the sum as it grows. */
export function QuoteEditor({ draft, onDone }: { readonly draft: QuoteDraft; readonly onDone: () => void }) {
  const { quote: words } = useWords().counter;
  const format = useFormat();
  const { currency } = draft.total;
  const [lines, setLines] = useState<readonly EditedLine[]>(() => editedLines(draft));
  const [note, setNote] = useState('');
  const writing = useWrite<{ id: string }>();
  const priced = lines.flatMap((line) => pricedLine(line, currency) ?? []);
  const body = quoteOf(lines, note, currency);
  const change = (key: string, part: Partial<EditedLine>) =>
    setLines((before) => before.map((line) => (line.key === key ? { ...line, ...part } : line)));
  return (
    <form
      className="form quote-editor"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (body !== undefined && !writing.busy) {
          writing.write({ path: `/jobs/${draft.jobId}/quotes`, body }, onDone);
        }
      }}
    >
      {draft.undecided.length === 0 ? null : (
        <div className="undecided">
          <p className="hot">
            <b>{words.undecided}</b>
          </p>
          <ul>
            {draft.undecided.map(({ id, words: what }) => (
              <li key={id}>{what}</li>
            ))}
          </ul>
        </div>
      )}
      {/* Each field says its own name to those who cannot see the heads. */}
      <div className="quote-line heads note" aria-hidden="true">
        <span>{words.kind}</span>
        <span>{words.words}</span>
        <span className="n">{words.quantity}</span>
        <span className="n">{words.each(currency)}</span>
        <span className="n">{words.amount}</span>
      </div>
      <ul className="quote-lines">
        {lines.map((line, index) => (
          <LineEditor
            key={line.key}
            line={line}
            number={index + 1}
            currency={currency}
            change={(part) => change(line.key, part)}
            remove={() => setLines((before) => before.filter(({ key }) => key !== line.key))}
          />
        ))}
      </ul>
      {lines.length === 0 ? <p className="note">{words.empty}</p> : null}
      <div className="quote-sum">
        <Button onClick={() => setLines((before) => [...before, emptyLine()])}>{words.add}</Button>
        <p role="status">
          {words.sum} <b className="num">{format.money(sumOf(priced, currency))}</b>
        </p>
      </div>
      {priced.length < lines.length ? (
        <p className="note">{words.unpricedLines(lines.length - priced.length)}</p>
      ) : null}
      <Field label={words.note}>
        {(input) => (
          <textarea
            {...input}
            rows={2}
            maxLength={2000}
            value={note}
            onChange={({ target }) => setNote(target.value)}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" disabled={body === undefined || writing.busy}>
          {words.send}
        </Button>
        <Button onClick={onDone}>{words.discard}</Button>
      </div>
    </form>
  );
}

interface LineProps {
  readonly line: EditedLine;
  readonly number: number;
  readonly currency: string;
  readonly change: (part: Partial<EditedLine>) => void;
  readonly remove: () => void;
}

function LineEditor({ line, number, currency, change, remove }: LineProps) {
  const { quote: words } = useWords().counter;
  const format = useFormat();
  const priced = pricedLine(line, currency);
  const named = (field: string) => words.lineOf(field, number);
  const priceWrong = line.each.trim() !== '' && priced === undefined;
  return (
    <li className="quote-line">
      <select
        aria-label={named(words.kind)}
        value={line.kind}
        onChange={({ target }) => change({ kind: lineKinds.find((kind) => kind === target.value) ?? line.kind })}
      >
        {lineKinds.map((kind) => (
          <option key={kind} value={kind}>
            {words.kinds[kind]}
          </option>
        ))}
      </select>
      <textarea
        className="what"
        aria-label={named(words.words)}
        rows={1}
        maxLength={300}
        value={line.words}
        onChange={({ target }) => change({ words: target.value.replaceAll('\n', ' ') })}
      />
      <input
        className="n"
        aria-label={named(words.quantity)}
        inputMode="numeric"
        maxLength={5}
        value={line.quantity}
        onChange={({ target }) => change({ quantity: target.value })}
      />
      <input
        className="n"
        aria-label={named(words.each(currency))}
        aria-invalid={priceWrong}
        inputMode="decimal"
        maxLength={15}
        placeholder={words.unpriced}
        value={line.each}
        onChange={({ target }) => change({ each: target.value })}
      />
      <span className="amount num">{priced === undefined ? '' : format.money(sumOf([priced], currency))}</span>
      <Button aria-label={words.removeLine(line.words === '' ? String(number) : line.words)} onClick={remove}>
        {words.remove}
      </Button>
    </li>
  );
}
