import { useState } from 'react';
import type { FastenerSetStanding } from '#contracts/assembly.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

interface RenewalsProps {
  readonly jobId: string;
  readonly set: FastenerSetStanding;
}

function Inspection({ jobId, set }: RenewalsProps) {
  const words = useWords().assemble.fasteners.renewals;
  const may = useMay('bench');
  const writing = useWrite();
  const [seen, setSeen] = useState('');
  return (
    <div className="inspection">
      <label>
        <span>{words.seen}</span>
        <input value={seen} maxLength={300} onChange={(event) => setSeen(event.target.value)} />
      </label>
      <Button
        big
        disabled={!may || writing.busy || seen.trim() === ''}
        onClick={() =>
          writing.write({ path: `/jobs/${jobId}/fastener-inspections`, body: { set: set.code, words: seen.trim() } })
        }
      >
        {words.fit}
      </Button>
      <Refusal error={writing.error} />
    </div>
  );
}

/** What loosening the set asked for: new fasteners, or a look at each before it is pulled again. */
export function Renewals({ jobId, set }: RenewalsProps) {
  const words = useWords().assemble.fasteners.renewals;
  if (set.renewals.length === 0) return null;
  const toInspect =
    set.reuse === 'inspect' && set.renewals.some(({ obligationId, open }) => open && obligationId !== null);
  return (
    <section className="renewals" aria-label={words.title}>
      <ul>
        {set.renewals.map((renewal) => (
          <li key={renewal.words} className={renewal.open ? 'hot' : 'note'}>
            {renewal.words} {renewal.open ? null : words.settled}
          </li>
        ))}
      </ul>
      {toInspect ? <Inspection jobId={jobId} set={set} /> : null}
    </section>
  );
}
