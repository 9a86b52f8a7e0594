import { useWords } from '../words/words.tsx';
import { RefusedError } from './api.ts';

/** Why an act was refused, beside the button that asked for it. Says nothing without a refusal. */
export function Refusal({ error }: { readonly error: Error | null }) {
  const { app } = useWords();
  if (error === null) return null;
  const offline = error instanceof RefusedError && error.offline;
  return (
    <p className="field-error" role="alert">
      {offline ? app.states.noAnswer : error.message}
    </p>
  );
}
