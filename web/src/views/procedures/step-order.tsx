import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import type { WrittenStep } from './written-step.ts';

interface StepOrderProps {
  readonly steps: readonly WrittenStep[];
  /** The one that is open. */
  readonly at: number;
  readonly onChoose: (place: number) => void;
  readonly onChange: (steps: readonly WrittenStep[], place: number) => void;
  readonly fresh: () => WrittenStep;
}

/** The steps in their order: one is chosen, moved, taken out, or a new one put behind it. */
export function StepOrder({ steps, at, onChoose, onChange, fresh }: StepOrderProps) {
  const { edit: words } = useWords().procedures;
  const step = steps[at];
  const move = (by: -1 | 1) => {
    if (step === undefined) return;
    onChange(steps.toSpliced(at, 1).toSpliced(at + by, 0, step), at + by);
  };
  return (
    <nav className="step-order" aria-label={words.order}>
      <div className="acts">
        <Button onClick={() => onChange(steps.toSpliced(at + 1, 0, fresh()), Math.min(at + 1, steps.length))}>
          {words.addStep}
        </Button>
        <Button disabled={at === 0} onClick={() => move(-1)}>
          {words.up}
        </Button>
        <Button disabled={at >= steps.length - 1} onClick={() => move(1)}>
          {words.down}
        </Button>
        <Button
          disabled={step === undefined}
          onClick={() => onChange(steps.toSpliced(at, 1), Math.max(0, Math.min(at, steps.length - 2)))}
        >
          {words.takeOut}
        </Button>
      </div>
      <ol>
        {steps.map((each, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a step that is being written has no name of its own yet
          <li key={place}>
            <button type="button" aria-current={place === at ? 'step' : undefined} onClick={() => onChoose(place)}>
              <span className="num">{place + 1}</span>
              <span>{each.title === '' ? words.untitled : each.title}</span>
              <span className="note">{each.onlyIf.length > 0 ? words.branch : ''}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
