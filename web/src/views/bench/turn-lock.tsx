import { Link } from '@tanstack/react-router';
import type { Opening } from '#contracts/openings.ts';
import type { RunStep } from '#contracts/procedure-runs.ts';
import { buttonClass } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

/** What may be inside the engine now: pieces declared so, and what was put in and is not found. */
const maybeInside = ({ pieces, putIn }: Opening) => [
  ...pieces.map(({ name, inside }) => ({ name, count: inside ?? 0 })),
  ...putIn.map(({ name, notFound }) => ({ name, count: notFound })),
];

/** Why the engine is not turned over in this step now, in words; null: it may be, or the step does not ask for it. */
export function useTurnLock(step: RunStep, opening: Opening | null): string | null {
  const { turns: words } = useWords().procedure;
  const turns = step.turnsEngine || step.cautions.some(({ hazard }) => hazard === 'pulled through by hand');
  const inside = turns && opening !== null ? maybeInside(opening).filter(({ count }) => count > 0) : [];
  return inside.length === 0 ? null : words.locked(inside);
}

/** The engine is turned over in this step; while something may be inside, what to do first stands in its place. */
export function TurnsEngine({ jobId, step, lock }: { jobId: string; step: RunStep; lock: string | null }) {
  const { turns: words } = useWords().procedure;
  if (lock === null) return step.turnsEngine ? <p className="step-second">{words.told}</p> : null;
  return (
    <section className="hands-stop" role="alert">
      <h2>{words.title}</h2>
      <p>{lock}</p>
      <div className="hands-acts">
        <Link className={buttonClass('main', true)} to="/bench/$jobId/search" params={{ jobId }}>
          {words.search}
        </Link>
      </div>
    </section>
  );
}
