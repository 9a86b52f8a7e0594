import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../kit/button.tsx';
import { newKey } from './key.ts';
import { invalidateFor } from './query-client.ts';

export type Step = 'check' | 'take';

/** Something large on its way in: checked first, with what it would do or what is wrong with it, then done as a whole. */
export interface CheckedWrite<Reply> {
  /** Forgets what was checked, since something that matters to it was changed. */
  readonly reset: () => void;
  /** Does the step that comes next. */
  readonly go: () => void;
  /** The step on its way. */
  readonly sending: Step | undefined;
  readonly checked: Reply | undefined;
  readonly taken: Reply | undefined;
  readonly error: Error | null;
}

/** @param sendStep sends one step, under the key that makes it be done once */
export function useCheckedWrite<Reply>(sendStep: (step: Step, key: string) => Promise<Reply>): CheckedWrite<Reply> {
  // One key as long as the same thing is to be done: asked again because the answer was lost, it is done once.
  const [key, setKey] = useState(newKey);
  const [checked, setChecked] = useState<Reply | undefined>();
  const mutation = useMutation<Reply, Error, Step>({
    mutationFn: (step) => sendStep(step, step === 'take' ? key : newKey()),
    onSuccess: (_reply, step) => {
      if (step === 'take') invalidateFor('everything');
    },
  });
  return {
    reset: () => {
      mutation.reset();
      setChecked(undefined);
      setKey(newKey());
    },
    go: () => {
      if (checked !== undefined) mutation.mutate('take');
      else mutation.mutate('check', { onSuccess: setChecked });
    },
    sending: mutation.isPending ? mutation.variables : undefined,
    checked,
    taken: mutation.variables === 'take' ? mutation.data : undefined,
    error: mutation.error,
  };
}

interface ActsProps<Reply> {
  readonly writing: CheckedWrite<Reply>;
  /** True when all that has to be said is said, and there is something to do. */
  readonly ready: boolean;
  readonly words: { readonly check: string; readonly take: (checked: Reply) => string; readonly close: string };
  readonly onClose: () => void;
}

/** At the foot of the dialog: check it, then do it, then only close. */
export function CheckedActs<Reply>({ writing, ready, words, onClose }: ActsProps<Reply>) {
  const { checked, taken, sending, go } = writing;
  return (
    <>
      {taken === undefined ? (
        <Button big kind="main" disabled={!ready || sending !== undefined} onClick={go}>
          {checked === undefined ? words.check : words.take(checked)}
        </Button>
      ) : null}
      <Button big onClick={onClose}>
        {words.close}
      </Button>
    </>
  );
}
