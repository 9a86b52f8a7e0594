import { useState } from 'react';
import type { Rack } from '#contracts/searches.ts';
import { useMay } from '../../app/session.tsx';
import { useWords } from '../../words/words.tsx';
import { RackActs } from './rack-acts.tsx';
import { RackSketch } from './rack-sketch.tsx';
import { toggled, unplacedIn } from './rack-wells.ts';

interface RackPaneProps {
  readonly rack: Rack;
  /** The opening while it is open; null: nothing can be done to it any more. */
  readonly openingId: string | null;
}

const nothing: ReadonlySet<string> = new Set();

/** One set kept in order: its drawing, what is amiss in it, and what can be done with the places that are tapped. */
export function RackPane({ rack, openingId }: RackPaneProps) {
  const { rack: words } = useWords().tally;
  const may = useMay('bench');
  const [chosen, setChosen] = useState(nothing);
  const { name, fromWhere, loose, places } = rack;
  const open = openingId !== null && may && loose !== null;
  const unplaced = unplacedIn(rack);
  const filled = places.filter((place) => place.filled === true).length;
  return (
    <section className="rack-pane" aria-label={name}>
      <h3>
        {name} <span className="note">{words.facts(places.length, fromWhere)}</span>
      </h3>
      <p className="note">{loose === null ? words.hidden : words.standing(filled, loose)}</p>
      <RackSketch
        rack={rack}
        chosen={chosen}
        {...(open ? { onPlace: (code: string) => setChosen(toggled(chosen, code)) } : {})}
      />
      {unplaced === 0 || loose === null ? null : <p className="hot">{words.unplaced(unplaced)}</p>}
      {open ? <RackActs rack={rack} openingId={openingId} chosen={chosen} onDone={() => setChosen(nothing)} /> : null}
    </section>
  );
}
