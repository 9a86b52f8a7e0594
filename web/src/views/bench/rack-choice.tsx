import type { Rack } from '#contracts/searches.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { RackSketch } from './rack-sketch.tsx';
import { liesIn, toggled, type Within } from './rack-wells.ts';

interface RackChoiceProps {
  readonly rack: Rack;
  readonly note: string;
  readonly chosen: ReadonlySet<string>;
  /** Only what lies there can be chosen. */
  readonly within?: Within;
  readonly disabled: boolean;
  readonly onChoose: (places: ReadonlySet<string>) => void;
}

/** Which pieces of a set go back now: tapped in its rack, or all of them at once. */
export function RackChoice({ rack, note, chosen, within, disabled, onChoose }: RackChoiceProps) {
  const { counting } = useWords().myBench;
  const { rack: words } = useWords().tally;
  const filled = new Set(rack.places.flatMap((place) => (liesIn(place, within) ? [place.code] : [])));
  return (
    <fieldset className="rack-choice" disabled={disabled}>
      <legend>
        <b>{words.choose(rack.name)}</b> <span className="note">{note}</span>
      </legend>
      <RackSketch
        rack={rack}
        chosen={chosen}
        within={within}
        onPlace={(code) => {
          if (filled.has(code) && !disabled) onChoose(toggled(chosen, code));
        }}
      />
      <Button
        big
        aria-label={counting.allOf(filled.size, rack.name)}
        aria-pressed={chosen.size === filled.size}
        onClick={() => onChoose(filled)}
      >
        {counting.all(filled.size)}
      </Button>
    </fieldset>
  );
}
