import { useState } from 'react';
import type { RunStep } from '#contracts/procedure-runs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface StepAskProps {
  readonly runId: string;
  readonly step: RunStep;
  /** Nothing is answered now: the run is interrupted, or the step stands outside. */
  readonly blocked: boolean;
}

/** What was found: one tap answers; another answer later says why. */
export function StepAsk({ runId, step, blocked }: StepAskProps) {
  const { ask: words } = useWords().procedure;
  const format = useFormat();
  const [changing, setChanging] = useState(false);
  const [reason, setReason] = useState('');
  const writing = useWrite();
  if (step.asks === null) return null;
  const { choices } = step.asks;
  const last = step.answers.at(-1);
  const answer = (choice: string) =>
    writing.write(
      {
        path: `/procedure-runs/${runId}/steps/${step.id}/answer`,
        body: last === undefined ? { choice } : { choice, reason: reason.trim() },
      },
      () => {
        setChanging(false);
        setReason('');
      },
    );
  const asking = last === undefined || changing;
  return (
    <section className="step-ask" aria-label={step.asks.words}>
      <h2>{step.asks.words}</h2>
      {step.answers.length === 0 ? null : (
        <ul className="step-answers">
          {step.answers.map(({ choice, by, at, reason: why }) => (
            <li key={at} className={at === last?.at ? 'stands' : undefined}>
              <b>{choices.find(({ code }) => code === choice)?.words ?? choice}</b>{' '}
              <span className="note">
                {words.who(by.name, format.since(at))}
                {why === '' ? '' : `: ${why}`}
              </span>
            </li>
          ))}
        </ul>
      )}
      {changing ? (
        <Field label={words.reason} big>
          {(input) => (
            <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
      ) : null}
      {asking ? (
        <div className="ask-choices">
          {choices.map(({ code, words: told }) => (
            <Button
              key={code}
              big
              disabled={blocked || writing.busy || code === last?.choice || (changing && reason.trim() === '')}
              onClick={() => answer(code)}
            >
              {told}
            </Button>
          ))}
        </div>
      ) : (
        <Button disabled={blocked} onClick={() => setChanging(true)}>
          {words.change}
        </Button>
      )}
      <Refusal error={writing.error} />
    </section>
  );
}
