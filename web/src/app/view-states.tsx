import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { BrandMark } from '../drawings/brand-mark.tsx';
import { useWords } from '../words/words.tsx';
import { RefusedError } from './api.ts';

/** Something could not be read: what happened, what is safe, what to do. */
export function Failed({ error, again }: { error: unknown; again?: () => void }) {
  const { app } = useWords();
  const offline = error instanceof RefusedError && error.offline;
  const detail = offline ? app.states.noNetwork : error instanceof Error ? error.message : '';
  return (
    <div className="state error" role="alert">
      <h2>{app.states.failed}</h2>
      <p>{detail}</p>
      <p className="note">{app.states.failedSafe}</p>
      {again === undefined ? null : (
        <button type="button" className="btn" onClick={again}>
          {app.states.again}
        </button>
      )}
    </div>
  );
}

export function Forbidden({ right }: { right: string }) {
  const { app } = useWords();
  return (
    <div className="state forbidden" role="alert">
      <h2>{app.states.forbidden}</h2>
      <p>{app.states.forbiddenWhy(right)}</p>
      <Link className="btn" to="/">
        {app.states.toFloor}
      </Link>
    </div>
  );
}

export function Missing() {
  const { app } = useWords();
  return (
    <div className="state">
      <h2>{app.states.missing}</h2>
      <p>{app.states.missingWhy}</p>
      <Link className="btn" to="/">
        {app.states.toFloor}
      </Link>
    </div>
  );
}

/** An address outside every view: it has no frame of its own. */
export function MissingPage() {
  return (
    <main className="outside-frame">
      <BrandMark size={40} />
      <Missing />
    </main>
  );
}

/** Nothing there yet: says what to do. */
export function EmptyNote({ children }: { children: ReactNode }) {
  return <div className="state empty">{children}</div>;
}
