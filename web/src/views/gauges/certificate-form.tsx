import { useState } from 'react';
import type { InstrumentFacts } from '#contracts/instruments.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { typedFigure } from './gauges-queries.ts';

interface GaugeProps {
  readonly gauge: InstrumentFacts;
}

/** A certificate that came back with the gauge. */
export function CertificateForm({ gauge }: GaugeProps) {
  const words = useWords().gauges.certificate;
  const writing = useWrite();
  const [calibratedOn, setCalibratedOn] = useState('');
  const [dueOn, setDueOn] = useState('');
  const [certificate, setCertificate] = useState('');
  const [mpe, setMpe] = useState('');
  const figure = mpe.trim() === '' ? null : typedFigure(mpe);
  const ready = calibratedOn !== '' && dueOn > calibratedOn && figure !== undefined && !writing.busy;
  const dated = (label: string, value: string, onChange: (day: string) => void) => (
    <Field label={label}>
      {(input) => <input {...input} type="date" value={value} onChange={({ target }) => onChange(target.value)} />}
    </Field>
  );
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        writing.write({
          path: `/instruments/${gauge.id}/calibrations`,
          body: {
            calibratedOn,
            dueOn,
            ...(certificate.trim() === '' ? {} : { certificate: certificate.trim() }),
            ...(figure === null ? {} : { mpe: { value: figure, unit: gauge.unit } }),
          },
        });
      }}
    >
      <h2>{words.title}</h2>
      <div className="pair">
        {dated(words.on, calibratedOn, setCalibratedOn)}
        {dated(words.due, dueOn, setDueOn)}
      </div>
      <Field label={words.number}>
        {(input) => (
          <input
            {...input}
            maxLength={120}
            value={certificate}
            onChange={({ target }) => setCertificate(target.value)}
          />
        )}
      </Field>
      <Field label={words.mpe(symbolOf(gauge.unit))} hint={words.mpeHint}>
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            maxLength={16}
            value={mpe}
            onChange={({ target }) => setMpe(target.value)}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <Button type="submit" disabled={!ready}>
        {words.write}
      </Button>
      <p role="status">{writing.reply === undefined ? '' : words.done}</p>
    </form>
  );
}

/** Taking a gauge out of use, with the reason. */
export function RetireForm({ gauge, onRetired }: GaugeProps & { readonly onRetired: () => void }) {
  const words = useWords().gauges.retire;
  const writing = useWrite();
  const [reason, setReason] = useState('');
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready)
          writing.write({ path: `/instruments/${gauge.id}/retire`, body: { reason: reason.trim() } }, onRetired);
      }}
    >
      <h2>{words.title}</h2>
      <p className="note">{words.why}</p>
      <Field label={words.reason}>
        {(input) => (
          <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <Refusal error={writing.error} />
      <Button type="submit" disabled={!ready}>
        {words.do}
      </Button>
    </form>
  );
}
