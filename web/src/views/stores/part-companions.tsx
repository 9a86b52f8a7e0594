import type { PartName } from '#contracts/parts.ts';
import { faultAt } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import type { Companion } from './part-entry.ts';
import { PartPicker } from './part-picker.tsx';

interface CompanionsProps {
  /** The part they go with; null: a new one. */
  readonly of: PartName | null;
  readonly companions: readonly Companion[];
  readonly onChange: (companions: readonly Companion[]) => void;
  readonly error: Error | null;
}

/** What goes with a part whenever it is asked for, so many of each with one of it. */
export function PartCompanions({ of, companions, onChange, error }: CompanionsProps) {
  const { partForms: words } = useWords();
  const add = (part: PartName | null) => {
    if (part === null || part.id === of?.id || companions.some((each) => each.part.id === part.id)) return;
    onChange([...companions, { part, quantity: 1 }]);
  };
  return (
    <fieldset className="form">
      <legend>{words.goesWith}</legend>
      <p className="note">{words.goesWithHint}</p>
      {companions.map(({ part, quantity }, at) => (
        <div key={part.id} className="form">
          <div className="picked">
            <span>
              <b>{part.name}</b> <span className="note num">{part.number}</span>
            </span>
            <Stepper
              label={words.howManyWith(part.name)}
              value={quantity}
              min={1}
              onChange={(count) => onChange(companions.with(at, { part, quantity: count }))}
            />
            <Button
              aria-label={words.leaveOutOf(part.name)}
              onClick={() => onChange(companions.filter((each) => each.part.id !== part.id))}
            >
              {words.leaveOut}
            </Button>
          </div>
          <Fault text={faultAt(error, `/companions/${at}/partId`)} />
        </div>
      ))}
      <PartPicker key={companions.length} chosen={null} onChoose={add} />
    </fieldset>
  );
}

function Fault({ text }: { readonly text: string | undefined }) {
  return text === undefined ? null : (
    <p className="field-error" role="alert">
      {text}
    </p>
  );
}
