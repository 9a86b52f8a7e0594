import { useQuery } from '@tanstack/react-query';
import type { PartName } from '#contracts/parts.ts';
import { Button } from '../../kit/button.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import { PartPicker } from '../stores/part-picker.tsx';
import { fittingPartsQuery } from '../stores/stores-queries.ts';

/** A part that a decision asks stores for. */
export type AskedPart = { readonly part: PartName; readonly quantity: number };

/** Where in the engine the obligation is about; null when it is about no place of the sheet. */
export type EnginePlace = { readonly familyId: string; readonly placeCode: string };

type Props = {
  readonly asked: readonly AskedPart[];
  readonly change: (asked: readonly AskedPart[]) => void;
  readonly place: EnginePlace | null;
};

/** The catalogue's parts for the place, each with how many there are; a tap asks for one. */
function Fitting({ place, asked, add }: { place: EnginePlace; asked: Props['asked']; add: (part: PartName) => void }) {
  const { picker } = useWords().stores;
  const { decideParts: words } = useWords().engine;
  const { data } = useQuery(fittingPartsQuery(place.familyId, place.placeCode));
  const fitting = (data?.items ?? []).filter(
    ({ id, retired }) => !retired && !asked.some(({ part }) => part.id === id),
  );
  return (
    <ul>
      {fitting.map(({ id, number, name, available }) => (
        <li key={id}>
          <Button onClick={() => add({ id, number, name })}>
            {words.askFor(name)} <span className="note num">{picker.available(available)}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}

/** Parts that go with a decision: those that fit the place, or any that is searched for, each with how many. */
export function AskedParts({ asked, change, place }: Props) {
  const { decideParts: words } = useWords().engine;
  const add = (part: PartName) => {
    if (!asked.some((one) => one.part.id === part.id)) change([...asked, { part, quantity: 1 }]);
  };
  return (
    <fieldset
      className="asked-parts"
      // Enter in the search or in a count would send the decision before its parts are chosen.
      onKeyDown={(event) => {
        if (event.key === 'Enter' && event.target instanceof HTMLInputElement) event.preventDefault();
      }}
    >
      <legend>{words.title}</legend>
      <ul>
        {asked.map(({ part, quantity }) => (
          <li key={part.id} className="asked-part">
            <span>
              <b>{part.name}</b> <span className="note num">{part.number}</span>
            </span>
            <Stepper
              label={words.howMany(part.name)}
              value={quantity}
              min={1}
              max={1000}
              onChange={(count) =>
                change(asked.map((one) => (one.part.id === part.id ? { ...one, quantity: count } : one)))
              }
            />
            <Button onClick={() => change(asked.filter((one) => one.part.id !== part.id))}>
              {words.remove(part.name)}
            </Button>
          </li>
        ))}
      </ul>
      {place === null ? null : <Fitting place={place} asked={asked} add={add} />}
      <PartPicker key={asked.length} chosen={null} onChoose={(part) => (part === null ? undefined : add(part))} />
      <p className="note">{words.hint}</p>
    </fieldset>
  );
}
