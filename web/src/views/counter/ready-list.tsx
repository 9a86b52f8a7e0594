import { useQueries } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { Floor } from '#contracts/floor.ts';
import { useWords } from '../../words/words.tsx';
import { handBackQuery } from './counter-queries.ts';

/** Engines that are closed and wait for nothing, and whether anything still speaks against handing them back. */
export function ReadyList({ floor }: { readonly floor: Floor }) {
  const { counter: words } = useWords();
  const closed = floor.engines.filter(({ opening, waits }) => opening === null && waits.length === 0);
  const pages = useQueries({ queries: closed.map(({ job }) => handBackQuery(job.id)) });
  const lines = closed
    .map((standing, index) => ({ standing, page: pages[index]?.data }))
    .filter(({ page }) => page?.proofs.some(({ last }) => last?.passed === true) === true)
    .toSorted((a, b) => (a.page?.reasons.length ?? 0) - (b.page?.reasons.length ?? 0));
  return (
    <section className="ready">
      <h2>{words.ready}</h2>
      {lines.length === 0 ? <p className="note">{words.readyNone}</p> : null}
      <ul>
        {lines.map(({ standing: { job, family, serial, owner }, page }) => (
          <li key={job.id}>
            <Link to="/counter/$jobId" params={{ jobId: job.id }} hash="hand-back">
              <b>
                {family.name} <span className="num">{serial}</span>
              </b>
            </Link>
            <span className="note">{owner.name}</span>
            <p>
              {page === undefined || page.reasons.length === 0 ? words.readyWhy : words.almost(page.reasons.length)}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
