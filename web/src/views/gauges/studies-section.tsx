import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { Study } from '#contracts/gauge-studies.ts';
import type { InstrumentFacts } from '#contracts/instruments.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { shopQuery } from '../bench/hands-queries.ts';
import { studiesQuery, typedFigure } from './gauges-queries.ts';

const MOST_PEOPLE = 6;

interface StartProps {
  readonly gauge: InstrumentFacts;
  readonly onClose: () => void;
}

/** How many parts and trials, and who reads. */
function StartForm({ gauge, onClose }: StartProps) {
  const words = useWords().gauges.studies;
  const { person } = useSession();
  const navigate = useNavigate();
  const people = (useQuery(shopQuery).data?.people ?? []).filter(({ roles }) =>
    roles.some((role) => role === 'technician' || role === 'lead'),
  );
  const writing = useWrite<Study>();
  const [name, setName] = useState('');
  const [parts, setParts] = useState(10);
  const [trials, setTrials] = useState(3);
  const [reading, setReading] = useState<readonly string[]>([person.id]);
  const [tolerance, setTolerance] = useState('');
  const width = tolerance.trim() === '' ? null : typedFigure(tolerance);
  const ready =
    name.trim() !== '' && reading.length > 0 && reading.length <= MOST_PEOPLE && width !== undefined && !writing.busy;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!ready) return;
    writing.write(
      {
        path: '/gauge-studies',
        body: {
          instrumentId: gauge.id,
          name: name.trim(),
          parts,
          trials,
          personIds: reading,
          ...(width === null ? {} : { tolerance: { value: width, unit: gauge.unit } }),
        },
      },
      ({ id }) => void navigate({ to: '/gauge-studies/$studyId', params: { studyId: id } }),
    );
  };
  return (
    <form className="form" onSubmit={submit}>
      <Field label={words.name}>
        {(input) => <input {...input} maxLength={120} value={name} onChange={({ target }) => setName(target.value)} />}
      </Field>
      <div className="count">
        <b>{words.parts}</b>
        <Stepper label={words.parts} value={parts} min={2} max={20} onChange={setParts} />
      </div>
      <div className="count">
        <b>{words.trials}</b>
        <Stepper label={words.trials} value={trials} min={2} max={10} onChange={setTrials} />
      </div>
      <fieldset className="readers">
        <legend>{words.people}</legend>
        {people.map(({ id, name: who }) => (
          <label key={id} className="check">
            <input
              type="checkbox"
              checked={reading.includes(id)}
              onChange={({ target }) =>
                setReading(target.checked ? [...reading, id] : reading.filter((other) => other !== id))
              }
            />
            {who}
          </label>
        ))}
      </fieldset>
      <Field label={words.tolerance(symbolOf(gauge.unit))} hint={words.toleranceHint}>
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            maxLength={16}
            value={tolerance}
            onChange={({ target }) => setTolerance(target.value)}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.begin}
        </Button>
        <Button onClick={onClose}>{words.cancel}</Button>
      </div>
    </form>
  );
}

/** The studies of one gauge, and the way to a new one. */
export function StudiesSection({ gauge }: { readonly gauge: InstrumentFacts }) {
  const words = useWords().gauges.studies;
  const bench = useMay('bench');
  const [starting, setStarting] = useState(false);
  const items = useQuery(studiesQuery(gauge.id)).data?.items;
  return (
    <section aria-labelledby="studies">
      <h2 id="studies">{words.title}</h2>
      {items?.length === 0 && !starting ? <p className="note">{words.none}</p> : null}
      <ul className="study-lines">
        {items?.map((study) => (
          <li key={study.id}>
            <Link to="/gauge-studies/$studyId" params={{ studyId: study.id }}>
              {study.name}
            </Link>
            <span className="note line">{words.line(study.parts, study.trials, study.people.length)}</span>
            <span className="note line">
              {study.adopted
                ? words.adopted
                : study.closed === null
                  ? words.progress(study.readingsTaken, study.readingsWanted)
                  : words.closed}
            </span>
          </li>
        ))}
      </ul>
      {starting ? <StartForm gauge={gauge} onClose={() => setStarting(false)} /> : null}
      {bench && !starting ? <Button onClick={() => setStarting(true)}>{words.start}</Button> : null}
    </section>
  );
}
