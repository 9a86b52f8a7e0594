import { type FormEvent, useState } from 'react';
import type { KeyStudy, Study } from '#contracts/gauge-studies.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { typedFigure } from './gauges-queries.ts';
import { type Place, placesLeft } from './study-order.ts';

interface KeyingProps {
  readonly study: Study;
}

/** One part, one figure, Enter; the last one can be read again with a reason. */
function OnePart({ study, personId, place }: KeyingProps & { readonly personId: string; readonly place: Place }) {
  const words = useWords().gauges.study;
  const writing = useWrite<Study>();
  const [figure, setFigure] = useState('');
  const [last, setLast] = useState<Place | null>(null);
  const [mending, setMending] = useState(false);
  const [reason, setReason] = useState('');
  const now = mending && last !== null ? last : place;
  const value = typedFigure(figure);
  const ready = value !== undefined && !writing.busy && (!mending || reason.trim() !== '');
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!ready) return;
    const reading: KeyStudy['readings'][number] = {
      ...now,
      personId,
      value: { value, unit: study.unit },
      ...(mending ? { reason: reason.trim() } : {}),
    };
    writing.write({ path: `/gauge-studies/${study.id}/readings`, body: { readings: [reading] } }, () => {
      setFigure('');
      setReason('');
      setMending(false);
      setLast(now);
    });
  };
  return (
    <form className="form study-keying" onSubmit={submit}>
      <p className="study-part">
        <b className="num">{words.next(now.part)}</b>{' '}
        <span className="note">{words.trial(now.trial, study.trials)}</span>
      </p>
      <Field label={words.value(symbolOf(study.unit))} big>
        {(input) => (
          <input
            {...input}
            // biome-ignore lint/a11y/noAutofocus: a gauge that types like a keyboard has to find the field
            autoFocus
            inputMode="decimal"
            autoComplete="off"
            maxLength={16}
            value={figure}
            onChange={({ target }) => setFigure(target.value)}
          />
        )}
      </Field>
      {mending ? (
        <Field label={words.mendReason}>
          {(input) => (
            <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
      ) : null}
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" big disabled={!ready}>
          {words.keep}
        </Button>
        {last === null || mending ? null : <Button onClick={() => setMending(true)}>{words.mend}</Button>}
      </div>
    </form>
  );
}

/** Who reads, and the next part for them. */
export function StudyKeying({ study }: KeyingProps) {
  const words = useWords().gauges.study;
  const { person } = useSession();
  const mine = study.people.find(({ id }) => id === person.id) ?? study.people[0];
  const [personId, setPersonId] = useState(mine?.id ?? '');
  const [place] = placesLeft(study, personId);
  return (
    <section className="study-bench">
      <Choice
        label={words.who}
        value={personId}
        onChange={setPersonId}
        options={study.people.map(({ id, name }) => ({
          value: id,
          label: placesLeft(study, id).length === 0 ? words.whoDone(name) : name,
        }))}
      />
      {place === undefined ? (
        <p>{words.personDone}</p>
      ) : (
        <OnePart key={personId} study={study} personId={personId} place={place} />
      )}
      <p className="note">{words.hold}</p>
      <p className="note">{words.order}</p>
    </section>
  );
}
