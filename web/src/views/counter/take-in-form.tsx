import { useNavigate } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { Floor } from '#contracts/floor.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { EngineChoice } from './engine-choice.tsx';
import { FirstPhotos } from './first-photos.tsx';
import { OwnerChoice } from './owner-choice.tsx';
import { faultsOf, noTakeIn, type TakeInEntry, takeInOf } from './take-in-entry.ts';
import { useFirstPhotos } from './use-first-photos.ts';
import { useTakeInScan } from './use-take-in-scan.ts';

const pointers = ['/engine', '/owner', '/hours', '/complaint', '/wishes', '/bayId'] as const;

/** Takes an engine in: one form; what is missing or wrong is said at its field. */
export function TakeInForm({ bays }: { readonly bays: Floor['bays'] }) {
  const { takeIn: words } = useWords().counter;
  const navigate = useNavigate();
  const [entry, setEntry] = useState<TakeInEntry>(noTakeIn);
  const [tried, setTried] = useState(false);
  const writing = useWrite<{ id: string; number: number }>();
  const first = useFirstPhotos();
  const change = (part: Partial<TakeInEntry>) => {
    setEntry((before) => ({ ...before, ...part }));
    if (writing.error !== null) writing.clear();
  };
  const beginAnew = () => {
    setEntry(noTakeIn);
    setTried(false);
    writing.clear();
    first.discard();
  };
  useTakeInScan(change);
  const missing = faultsOf(entry);
  const said = (field: keyof typeof missing, pointer: string) =>
    tried && missing[field] ? words[missing[field]] : faultAt(writing.error, pointer);
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    setTried(true);
    const body = takeInOf(entry);
    if (body === undefined) {
      const form = event.currentTarget;
      // The first field at fault gets the focus once it is marked.
      requestAnimationFrame(() => form.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    writing.write({ path: '/jobs', body }, ({ id }) => {
      void first.giveTo(id);
      void navigate({ to: '/counter/$jobId', params: { jobId: id } });
    });
  };
  return (
    <form id="take-in" className="form take-in" noValidate onSubmit={submit}>
      <h2>{words.title}</h2>
      <EngineChoice
        entry={entry}
        change={change}
        fault={said('engine', '/engine')}
        familyFault={said('family', '/family')}
      />
      <OwnerChoice entry={entry} change={change} fault={said('owner', '/owner')} />
      <div className="pair">
        <Field label={words.hours} hint={words.hoursHint} error={said('hours', '/hours')}>
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              autoComplete="off"
              maxLength={8}
              value={entry.hours}
              onChange={({ target }) => change({ hours: target.value })}
            />
          )}
        </Field>
        <Field label={words.bay} error={said('bay', '/bayId')}>
          {(input) => (
            <select {...input} value={entry.bayId} onChange={({ target }) => change({ bayId: target.value })}>
              <option value="">{words.chooseBay}</option>
              {bays.map(({ id, name, capacity, engineIds }) => (
                <option key={id} value={id}>
                  {name}, {words.room(capacity - engineIds.length)}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      {/* Before what the owner told, so that Tab leads from the last of it to the button that takes the engine in. */}
      <FirstPhotos {...first} />
      <Told
        entry={entry}
        change={change}
        complaintFault={said('complaint', '/complaint')}
        wishesFault={faultAt(writing.error, '/wishes')}
      />
      {isSaidAt(writing.error, pointers) ? null : <Refusal error={writing.error} />}
      <Acts busy={writing.busy} begun={entry !== noTakeIn || first.photos.length > 0} onAnew={beginAnew} />
    </form>
  );
}

interface ActsProps {
  readonly busy: boolean;
  /** Something stands in the form, which can be thrown away. */
  readonly begun: boolean;
  readonly onAnew: () => void;
}

function Acts({ busy, begun, onAnew }: ActsProps) {
  const { takeIn: words } = useWords().counter;
  return (
    <div className="take-in-acts">
      <Button type="submit" kind="main" big disabled={busy}>
        {words.send}
      </Button>
      {begun ? (
        <Button big disabled={busy} onClick={onAnew}>
          {words.beginAnew}
        </Button>
      ) : null}
    </div>
  );
}

interface ToldProps {
  readonly entry: TakeInEntry;
  readonly change: (part: Partial<TakeInEntry>) => void;
  readonly complaintFault: string | undefined;
  readonly wishesFault: string | undefined;
}

/** What the owner told. */
function Told({ entry, change, complaintFault, wishesFault }: ToldProps) {
  const { takeIn: words } = useWords().counter;
  return (
    <>
      <Field label={words.complaint} hint={words.complaintHint} error={complaintFault}>
        {(input) => (
          <textarea
            {...input}
            rows={3}
            maxLength={2000}
            value={entry.complaint}
            onChange={({ target }) => change({ complaint: target.value })}
          />
        )}
      </Field>
      <Field label={words.wishes} hint={words.wishesHint} error={wishesFault}>
        {(input) => (
          <textarea
            {...input}
            rows={2}
            maxLength={2000}
            value={entry.wishes}
            onChange={({ target }) => change({ wishes: target.value })}
          />
        )}
      </Field>
    </>
  );
}
