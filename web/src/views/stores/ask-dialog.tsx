import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { JobDemands } from '#contracts/demands.ts';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import { PartPicker } from './part-picker.tsx';
import { floorQuery, kitsQuery } from './stores-queries.ts';

/** Asks for a kit or a single part on behalf of a job. */
export function AskDialog({ jobId: first = '', onClose }: { readonly jobId?: string; readonly onClose: () => void }) {
  const { askDialog: words } = useWords().stores;
  const engines = useQuery(floorQuery).data?.engines ?? [];
  const [jobId, setJobId] = useState(first);
  const [what, setWhat] = useState<'kit' | 'single'>('kit');
  const [kitId, setKitId] = useState('');
  const [part, setPart] = useState<PartName | null>(null);
  const [quantity, setQuantity] = useState(1);
  const [reason, setReason] = useState('');
  const familyId = engines.find(({ job }) => job.id === jobId)?.family.id;
  const kits = useQuery({ ...kitsQuery(familyId ?? ''), enabled: familyId !== undefined }).data?.items ?? [];
  const kit = kits.find(({ id }) => id === kitId);
  const writing = useWrite<JobDemands>();
  const body =
    what === 'kit'
      ? kit === undefined
        ? undefined
        : { kitId: kit.id }
      : part === null || reason.trim() === ''
        ? undefined
        : { lines: [{ partId: part.id, quantity, words: reason.trim() }] };
  const ready = jobId !== '' && body !== undefined && !writing.busy;
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) writing.write({ path: `/jobs/${jobId}/demands`, body }, onClose);
        }}
      >
        <Field label={words.job}>
          {(input) => (
            <select {...input} required value={jobId} onChange={({ target }) => setJobId(target.value)}>
              <option value="">{words.chooseJob}</option>
              {engines.map(({ job, family, serial }) => (
                <option key={job.id} value={job.id}>
                  {job.number}, {family.name} {serial}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Choice
          label={words.what}
          value={what}
          onChange={setWhat}
          options={[
            { value: 'kit', label: words.kit },
            { value: 'single', label: words.single },
          ]}
        />
        {what === 'kit' ? (
          <>
            <Field label={words.kit} error={familyId !== undefined && kits.length === 0 ? words.noKit : undefined}>
              {(input) => (
                <select {...input} value={kitId} onChange={({ target }) => setKitId(target.value)}>
                  <option value="">{words.chooseKit}</option>
                  {kits.map(({ id, name }) => (
                    <option key={id} value={id}>
                      {name}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            {kit === undefined ? null : (
              <ul className="note num kit-lines">
                {kit.lines.map(({ part: { id, name }, quantity: count, available }) => (
                  <li key={id} className={available < count ? 'hot' : ''}>
                    {words.kitLine(count, name, available)}
                  </li>
                ))}
              </ul>
            )}
          </>
        ) : (
          <>
            <PartPicker chosen={part} onChoose={setPart} />
            <div className="count">
              <b>{words.quantity}</b>
              <Stepper label={words.quantity} value={quantity} min={1} max={100_000} onChange={setQuantity} />
            </div>
            <Field label={words.reason}>
              {(input) => (
                <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
              )}
            </Field>
          </>
        )}
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={!ready}>
            {words.ask}
          </Button>
          <Button onClick={onClose}>{words.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
