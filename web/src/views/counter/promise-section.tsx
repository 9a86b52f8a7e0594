import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PromiseMade } from '#contracts/counter.ts';
import type { PartsReady } from '#contracts/promising.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { partsReadyQuery, promisesQuery } from './counter-queries.ts';

interface PromiseProps {
  readonly jobId: string;
  readonly open: boolean;
  readonly today: string;
}

const sures = ['1', '2', '3', '4', '5'] as const;

/** The day told to the owner, how sure it is, and what was told before. */
export function PromiseSection({ jobId, open, today }: PromiseProps) {
  const { promise: words } = useWords().counter;
  const format = useFormat();
  const promises = useQuery(promisesQuery(jobId)).data?.items ?? [];
  const [newest, ...earlier] = promises;
  return (
    <section className="panel" id="promise">
      <h2>{words.title}</h2>
      <p role="status">
        {newest === undefined ? words.none : <b>{words.current(format.day(newest.readyOn), newest.sureOf5)}</b>}
      </p>
      {newest === undefined || newest.note === '' ? null : <p className="note">{newest.note}</p>}
      {open ? <PromiseForm jobId={jobId} today={today} /> : null}
      {earlier.length === 0 ? null : (
        <details>
          <summary>{words.history}</summary>
          <ul className="note">
            {earlier.map(({ id, readyOn, sureOf5, madeBy, madeAt }) => (
              <li key={id}>{words.told(format.day(readyOn), sureOf5, madeBy.name, format.since(madeAt))}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** Parts of which some are promised from the number that replaced them. */
const replacements = ({ lines }: PartsReady) =>
  lines.flatMap(({ part, instead }) => instead.map((one) => [part.number, one.part.number] as const));

function PromiseForm({ jobId, today }: Omit<PromiseProps, 'open'>) {
  const { promise: words } = useWords().counter;
  const format = useFormat();
  const [readyOn, setReadyOn] = useState('');
  const [sure, setSure] = useState<(typeof sures)[number]>('4');
  const [note, setNote] = useState('');
  const writing = useWrite<PromiseMade>();
  const parts = useQuery(partsReadyQuery(jobId)).data;
  const give = () =>
    writing.write(
      {
        path: `/jobs/${jobId}/promises`,
        body: { readyOn, sureOf5: Number(sure), ...(note.trim() === '' ? {} : { note: note.trim() }) },
      },
      () => {
        setReadyOn('');
        setNote('');
      },
    );
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (readyOn !== '' && !writing.busy) give();
      }}
    >
      <Field label={words.day} error={faultAt(writing.error, '/readyOn')}>
        {(input) => (
          <input
            {...input}
            type="date"
            min={today}
            value={readyOn}
            onChange={({ target }) => {
              setReadyOn(target.value);
              writing.clear();
            }}
          />
        )}
      </Field>
      {parts === undefined ? null : (
        <p className="note">
          {words.parts(parts.basis, parts.on === null ? null : format.day(parts.on))}
          {replacements(parts).map(([wanted, instead]) => ` ${words.instead(wanted, instead)}`)}
        </p>
      )}
      <div className="sure">
        <Choice
          label={words.sure}
          value={sure}
          onChange={setSure}
          options={sures.map((value) => ({ value, label: words.sureOf(Number(value)) }))}
        />
      </div>
      <Field label={words.note} error={faultAt(writing.error, '/note')}>
        {(input) => <input {...input} maxLength={500} value={note} onChange={({ target }) => setNote(target.value)} />}
      </Field>
      {isSaidAt(writing.error, ['/readyOn', '/note']) ? null : <Refusal error={writing.error} />}
      <Button type="submit" kind="held" disabled={readyOn === '' || writing.busy}>
        {words.give}
      </Button>
    </form>
  );
}
