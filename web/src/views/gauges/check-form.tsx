import { useState } from 'react';
import type { Checked, InstrumentFacts } from '#contracts/instruments.ts';
import { shortest } from '#domain/units/format-quantity.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { typedFigure } from './gauges-queries.ts';

/** What the gauge shows on its master today. */
export function CheckForm({ gauge }: { readonly gauge: InstrumentFacts }) {
  const words = useWords().gauges.check;
  const format = useFormat();
  const writing = useWrite<Checked>();
  const { unit, lastCheck } = gauge;
  const [zero, setZero] = useState('');
  const [master, setMaster] = useState(lastCheck?.master ?? '');
  const [uncertainty, setUncertainty] = useState('');
  const figure = typedFigure(zero);
  const masterFigure = uncertainty.trim() === '' ? null : typedFigure(uncertainty);
  const ready = figure !== undefined && masterFigure !== undefined && !writing.busy;
  const { reply } = writing;
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        writing.write(
          {
            path: `/instruments/${gauge.id}/checks`,
            body: {
              zeroError: { value: figure, unit },
              ...(master.trim() === '' ? {} : { master: master.trim() }),
              ...(masterFigure === null ? {} : { masterUncertainty: { value: masterFigure, unit } }),
            },
          },
          () => setZero(''),
        );
      }}
    >
      <h2>{words.title}</h2>
      <p className="note">{words.why}</p>
      <p>
        {lastCheck === null
          ? words.never
          : words.last(
              `${format.decimal(shortest(lastCheck.zeroError.value, 0))} ${symbolOf(unit)}`,
              lastCheck.checkedBy.name,
              format.since(lastCheck.checkedAt),
            )}
      </p>
      <Field label={words.zero(symbolOf(unit))} big>
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            maxLength={16}
            value={zero}
            onChange={({ target }) => setZero(target.value)}
          />
        )}
      </Field>
      <Field label={words.master} hint={words.masterHint}>
        {(input) => (
          <input {...input} maxLength={120} value={master} onChange={({ target }) => setMaster(target.value)} />
        )}
      </Field>
      <Field label={words.uncertainty(symbolOf(unit))}>
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            maxLength={16}
            value={uncertainty}
            onChange={({ target }) => setUncertainty(target.value)}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <Button type="submit" kind="main" big disabled={!ready}>
        {words.write}
      </Button>
      <p role="status">
        {reply === undefined
          ? ''
          : words.done(format.decimal(shortest(reply.zeroError.value, 0)), symbolOf(reply.zeroError.unit))}
      </p>
    </form>
  );
}
