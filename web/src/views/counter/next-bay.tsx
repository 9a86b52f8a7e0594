import { useState } from 'react';
import type { Floor } from '#contracts/floor.ts';
import type { Named } from '#contracts/wire.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

interface BayProps {
  readonly jobId: string;
  readonly bays: Floor['bays'];
  readonly planned: Named | null;
}

/** Plans the bay a job goes to next. */
export function NextBay({ jobId, bays, planned }: BayProps) {
  const { bay: words, takeIn } = useWords().counter;
  const [chosen, setChosen] = useState<string | null>(null);
  const writing = useWrite();
  const bayId = chosen ?? planned?.id ?? '';
  const plan = () =>
    writing.write({ path: `/jobs/${jobId}/assigned-bay`, body: { bayId: bayId === '' ? null : bayId } }, () =>
      setChosen(null),
    );
  return (
    <section className="panel">
      <h2>{words.title}</h2>
      <p role="status">{planned === null ? words.noPlan : words.planned(planned.name)}</p>
      <div className="with-act">
        <Field label={words.next}>
          {(input) => (
            <select {...input} value={bayId} onChange={({ target }) => setChosen(target.value)}>
              <option value="">{words.none}</option>
              {bays.map(({ id, name, capacity, engineIds }) => (
                <option key={id} value={id}>
                  {name}, {takeIn.room(capacity - engineIds.length)}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Button disabled={writing.busy || bayId === (planned?.id ?? '')} onClick={plan}>
          {words.plan}
        </Button>
      </div>
      <p className="note">{words.moves}</p>
      <Refusal error={writing.error} />
    </section>
  );
}
