import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { AddDemands, JobDemands } from '#contracts/demands.ts';
import type { Kit, PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import { GradeField } from './grade-field.tsx';
import { PartPicker } from './part-picker.tsx';
import { floorQuery, kitsQuery, partQuery } from './stores-queries.ts';

interface Single {
  readonly part: PartName | null;
  readonly quantity: number;
  readonly reason: string;
  /** Empty: any lot of the part will do. */
  readonly grade: string;
}

/** The request for a single part, once it is chosen and said what for. */
function linesOf({ part, quantity, reason, grade }: Single): AddDemands | undefined {
  if (part === null || reason.trim() === '') return undefined;
  return {
    lines: [
      { partId: part.id, quantity, words: reason.trim(), ...(grade.trim() === '' ? {} : { grade: grade.trim() }) },
    ],
  };
}

/** Asks for a kit or a single part on behalf of a job. */
export function AskDialog({ jobId: first = '', onClose }: { readonly jobId?: string; readonly onClose: () => void }) {
  const { askDialog: words } = useWords().stores;
  const engines = useQuery(floorQuery).data?.engines ?? [];
  const [jobId, setJobId] = useState(first);
  const [what, setWhat] = useState<'kit' | 'single'>('kit');
  const [kitId, setKitId] = useState('');
  const [single, setSingle] = useState<Single>({ part: null, quantity: 1, reason: '', grade: '' });
  const familyId = engines.find(({ job }) => job.id === jobId)?.family.id;
  const kits = useQuery({ ...kitsQuery(familyId ?? ''), enabled: familyId !== undefined }).data?.items ?? [];
  const kit = kits.find(({ id }) => id === kitId);
  const writing = useWrite<JobDemands>();
  const body = what === 'kit' ? kit && { kitId: kit.id } : linesOf(single);
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
          <KitFields kits={kits} chosen={kit} known={familyId !== undefined} onChoose={setKitId} />
        ) : (
          <SingleFields entry={single} error={writing.error} change={(part) => setSingle({ ...single, ...part })} />
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

interface KitProps {
  readonly kits: readonly Kit[];
  readonly chosen: Kit | undefined;
  /** False while no job is chosen: then there are no kits to speak of. */
  readonly known: boolean;
  readonly onChoose: (kitId: string) => void;
}

function KitFields({ kits, chosen, known, onChoose }: KitProps) {
  const { askDialog: words } = useWords().stores;
  return (
    <>
      <Field label={words.kit} error={known && kits.length === 0 ? words.noKit : undefined}>
        {(input) => (
          <select {...input} value={chosen?.id ?? ''} onChange={({ target }) => onChoose(target.value)}>
            <option value="">{words.chooseKit}</option>
            <NamedOptions of={kits} />
          </select>
        )}
      </Field>
      {chosen === undefined ? null : (
        <ul className="note num">
          {chosen.lines.map(({ part: { id, name }, quantity, available }) => (
            <li key={id} className={available < quantity ? 'hot' : ''}>
              {words.kitLine(quantity, name, available)}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

interface SingleProps {
  readonly entry: Single;
  readonly error: Error | null;
  readonly change: (part: Partial<Single>) => void;
}

function SingleFields({ entry, error, change }: SingleProps) {
  const { askDialog: words } = useWords().stores;
  const sheet = useQuery({ ...partQuery(entry.part?.id ?? ''), enabled: entry.part !== null }).data;
  return (
    <>
      <PartPicker chosen={entry.part} onChoose={(part) => change({ part })} />
      <div className="count">
        <b>{words.quantity}</b>
        <Stepper
          label={words.quantity}
          value={entry.quantity}
          min={1}
          max={100_000}
          onChange={(quantity) => change({ quantity })}
        />
      </div>
      {entry.part === null ? null : (
        <GradeField
          label={words.grade}
          part={sheet?.part}
          grade={entry.grade}
          error={error}
          pointer="/lines/0/grade"
          onGrade={(grade) => change({ grade })}
        />
      )}
      <Field label={words.reason}>
        {(input) => (
          <input
            {...input}
            maxLength={300}
            value={entry.reason}
            onChange={({ target }) => change({ reason: target.value })}
          />
        )}
      </Field>
    </>
  );
}
