import type { Reserved } from '#contracts/demands.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

interface AnswerProps {
  readonly answer: Reserved;
  readonly onDismiss?: () => void;
}

/** What a reservation was answered: what was promised, and exactly which parts are missing and how many. */
export function ReserveAnswer({ answer, onDismiss }: AnswerProps) {
  const { answer: words } = useWords().stores;
  const count = answer.reserved.reduce((sum, { quantity }) => sum + quantity, 0);
  const said = answer.complete
    ? count === 0
      ? words.nothingAsked
      : words.complete(count)
    : count === 0
      ? words.none
      : words.some(count);
  return (
    <div className={answer.complete ? 'answer' : 'answer short'} role="status">
      <p>
        <b>{said}</b>
      </p>
      {answer.shortages.length === 0 ? null : (
        <ul>
          {answer.shortages.map(({ demandLineId, part, wanted, available, missing, rule }) => (
            <li key={demandLineId}>
              <b>{part.name}</b> <span className="note num">{part.number}</span>
              {rule === '' ? null : <span>{rule}</span>}
              <span className="hot">{words.missing(missing, wanted)}</span>
              <span className="note">{words.available(available)}</span>
            </li>
          ))}
        </ul>
      )}
      {onDismiss === undefined ? null : <Button onClick={onDismiss}>{words.dismiss}</Button>}
    </div>
  );
}
