import { useState } from 'react';
import type { AnswerQuote, Quote } from '#contracts/counter.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { moneyEntry, readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';

const waysToSayYes = ['at the counter', 'by telephone', 'in writing'] as const satisfies readonly AnswerQuote['how'][];

type Way = (typeof waysToSayYes)[number];

const pointers = ['/sum', '/saidBy', '/note'] as const;

/** Records what the owner said to the newest quote: yes or no, to what sum, who said it and how. */
export function AnswerForm({ quote, owner }: { readonly quote: Quote; readonly owner: string }) {
  const { answer: words } = useWords().counter;
  const { currency } = quote.total;
  const [said, setSaid] = useState<'yes' | 'no'>('yes');
  const [sum, setSum] = useState(moneyEntry(quote.total));
  const [saidBy, setSaidBy] = useState(owner);
  const [how, setHow] = useState<Way>('by telephone');
  const [note, setNote] = useState('');
  const writing = useWrite();
  const money = readMoney(sum, currency);
  const sumWrong = said === 'yes' && money === undefined;
  const ready = !sumWrong && saidBy.trim() !== '' && !writing.busy;
  const body = {
    yes: said === 'yes',
    ...(said === 'yes' ? { sum: money } : {}),
    saidBy: saidBy.trim(),
    how,
    ...(note.trim() === '' ? {} : { note: note.trim() }),
  };
  return (
    <form
      className="form answer-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) writing.write({ path: `/quotes/${quote.id}/answer`, body });
      }}
    >
      <h3>{words.title}</h3>
      <div className="pair">
        <Choice
          label={words.what}
          value={said}
          onChange={setSaid}
          options={[
            { value: 'yes', label: words.yes },
            { value: 'no', label: words.no },
          ]}
        />
        {said === 'no' ? null : (
          <Field
            label={words.sum(currency)}
            hint={words.sumHint}
            error={sumWrong ? words.sumWrong : faultAt(writing.error, '/sum')}
          >
            {(input) => (
              <input
                {...input}
                inputMode="decimal"
                maxLength={15}
                value={sum}
                onChange={({ target }) => setSum(target.value)}
              />
            )}
          </Field>
        )}
        <SaidBy
          saidBy={saidBy}
          how={how}
          onChange={({ saidBy: name, how: way }) => {
            setSaidBy(name);
            setHow(way);
          }}
          fault={faultAt(writing.error, '/saidBy')}
        />
      </div>
      <Field label={words.note} error={faultAt(writing.error, '/note')}>
        {(input) => <input {...input} maxLength={2000} value={note} onChange={({ target }) => setNote(target.value)} />}
      </Field>
      <p className="note">{words.partsThen[said]}</p>
      {isSaidAt(writing.error, pointers) ? null : <Refusal error={writing.error} />}
      <div className="acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.record}
        </Button>
      </div>
    </form>
  );
}

interface SaidByProps {
  readonly saidBy: string;
  readonly how: Way;
  readonly onChange: (said: { readonly saidBy: string; readonly how: Way }) => void;
  readonly fault: string | undefined;
}

/** Who said it, and how. */
function SaidBy({ saidBy, how, onChange, fault }: SaidByProps) {
  const { answer: words } = useWords().counter;
  return (
    <>
      <Field label={words.saidBy} error={fault}>
        {(input) => (
          <input
            {...input}
            maxLength={120}
            value={saidBy}
            onChange={({ target }) => onChange({ saidBy: target.value, how })}
          />
        )}
      </Field>
      <Field label={words.how}>
        {(input) => (
          <select
            {...input}
            value={how}
            onChange={({ target }) =>
              onChange({ saidBy, how: waysToSayYes.find((way) => way === target.value) ?? how })
            }
          >
            {waysToSayYes.map((way) => (
              <option key={way} value={way}>
                {words.hows[way]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  );
}
