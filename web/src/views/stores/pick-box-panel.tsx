import { useState } from 'react';
import type { JobName } from '#contracts/parts.ts';
import { send } from '../../app/api.ts';
import { invalidateFor } from '../../app/query-client.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type Picked, sameLot } from './pick-box.ts';
import type { Stop } from './pick-stop.ts';

interface BoxProps {
  readonly box: readonly Picked[];
  readonly stops: readonly Stop[];
  readonly onTakeOut: (of: Picked) => void;
}

/** What was picked and is not issued yet, job by job. */
export function PickBox({ box, stops, onTakeOut }: BoxProps) {
  const { walk: words } = useWords().storesDesks;
  const jobs = [...new Map(box.map(({ job }) => [job.id, job])).values()].toSorted((a, b) => a.number - b.number);
  return (
    <section className="pick-box sunken" aria-label={words.basket}>
      <h2>{words.basket}</h2>
      {box.length === 0 ? <p className="nothing">{words.basketEmpty}</p> : null}
      {jobs.map((job) => (
        <JobBox
          key={job.id}
          job={job}
          picked={box.filter((one) => one.job.id === job.id)}
          stops={stops}
          onTakeOut={onTakeOut}
        />
      ))}
    </section>
  );
}

interface JobBoxProps extends Omit<BoxProps, 'box'> {
  readonly job: JobName;
  readonly picked: readonly Picked[];
}

function JobBox({ job, picked, stops, onTakeOut }: JobBoxProps) {
  const { walk: words } = useWords().storesDesks;
  const may = useMay('stores');
  const [done, setDone] = useState<number | null>(null);
  const [error, setError] = useState<Error | null>(null);
  const held = (one: Picked) => stops.some((stop) => sameLot(stop, one) && stop.quantity >= one.quantity);
  const ready = picked.filter(held);
  // Line by line, each with its key: what was issued when the network drops is not issued twice.
  const issue = async () => {
    setError(null);
    try {
      for (const [at, one] of ready.entries()) {
        setDone(at);
        const { demandLineId, lotId, quantity, key } = one;
        await send(`/demand-lines/${demandLineId}/issue`, { quantity, lotId }, { key });
        onTakeOut(one);
      }
    } catch (failure) {
      setError(failure instanceof Error ? failure : new Error(String(failure)));
    }
    setDone(null);
    invalidateFor('everything');
  };
  const count = ready.reduce((sum, { quantity }) => sum + quantity, 0);
  return (
    <section>
      <h3>{words.job(job.number, job.family, job.serial)}</h3>
      <ul>
        {picked.map((one) => (
          <li key={one.key}>
            <span>
              {words.entry(one.quantity, one.part.name)} <span className="num note">{one.part.number}</span>
              {held(one) || done !== null ? null : <b className="hot"> {words.gone}</b>}
            </span>
            <Button aria-label={words.backOf(one.part.name)} onClick={() => onTakeOut(one)}>
              {words.back}
            </Button>
          </li>
        ))}
      </ul>
      {may && count > 0 ? (
        <Button big kind="main" disabled={done !== null} onClick={() => void issue()}>
          {done === null ? words.issue(count, job.number) : words.issuing(done, ready.length)}
        </Button>
      ) : null}
      <Refusal error={error} />
    </section>
  );
}
