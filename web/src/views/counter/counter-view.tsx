import { useQuery } from '@tanstack/react-query';
import { useMay } from '../../app/session.tsx';
import { Failed, Forbidden } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { floorQuery } from '../stores/stores-queries.ts';
import { JobLine } from './job-line.tsx';
import { ReadyList } from './ready-list.tsx';
import { TakeInForm } from './take-in-form.tsx';
import './counter.css';

/** The counter: what came in, what was promised, who has said yes, what can go back. */
export function CounterView() {
  const { counter: words } = useWords();
  const floor = useQuery(floorQuery);
  if (!useMay('counter')) {
    return (
      <main className="counter-refused">
        <Forbidden right="counter" />
      </main>
    );
  }
  if (floor.isError && floor.data === undefined) {
    return (
      <main className="counter-refused">
        <Failed error={floor.error} again={() => void floor.refetch()} />
      </main>
    );
  }
  // Whatever was promised first comes first; what has no date, last.
  const engines = (floor.data?.engines ?? []).toSorted((a, b) =>
    (a.promise?.readyOn ?? '9999').localeCompare(b.promise?.readyOn ?? '9999'),
  );
  return (
    <main className="counter">
      <div className="p">
        <header className="hd">
          <h1>{words.title}</h1>
          <a className="btn jump" href="#take-in">
            {words.jumpToTakeIn}
          </a>
        </header>
        {floor.data === undefined ? null : <ReadyList floor={floor.data} />}
        <section className="jobs-in">
          <h2>{words.inShop}</h2>
          {floor.isPending ? <Skeleton label={words.reading} lines={8} /> : null}
          {floor.data?.engines.length === 0 ? <Empty title={words.empty}>{words.emptyWhat}</Empty> : null}
          {floor.data === undefined ? null : (
            <ul>
              {engines.map((standing) => (
                <JobLine key={standing.id} standing={standing} floor={floor.data} />
              ))}
            </ul>
          )}
        </section>
      </div>
      <aside className="sunken">{floor.data === undefined ? null : <TakeInForm bays={floor.data.bays} />}</aside>
    </main>
  );
}
