import { useState } from 'react';
import type { Rack } from '#contracts/searches.ts';
import { useMay } from '../../app/session.tsx';
import { useWords } from '../../words/words.tsx';
import { RackActs } from './rack-acts.tsx';
import { RackSketch } from './rack-sketch.tsx';
import { placesByTray, toggled, unplacedIn, type Within } from './rack-wells.ts';

interface RackPaneProps {
  readonly rack: Rack;
  readonly jobId: string;
  /** The opening while it is open; null: nothing can be done to it any more. */
  readonly openingId: string | null;
  /** Shown for one tray; left out: for the whole set. */
  readonly within?: Within;
}

const nothing: ReadonlySet<string> = new Set();

/** One set kept in order: its drawing, what is amiss in it, and what can be done with the places that are tapped. */
export function RackPane({ rack, jobId, openingId, within }: RackPaneProps) {
  const { rack: words } = useWords().tally;
  const may = useMay('bench');
  const [chosen, setChosen] = useState(nothing);
  const { name, fromWhere, loose, places } = rack;
  const open = openingId !== null && may && loose !== null;
  const unplaced = unplacedIn(rack, within);
  const split = placesByTray(rack);
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
        within={within}
        {...(open ? { onPlace: (code: string) => setChosen(toggled(chosen, code)) } : {})}
      />
      {split.length === 0 ? null : <p>{words.split(split.map(([tray, names]) => [words.where(tray), names]))}</p>}
      {unplaced === 0 || loose === null ? null : <p className="hot">{words.unplaced(unplaced)}</p>}
      {open ? (
        <RackActs
          rack={rack}
          jobId={jobId}
          openingId={openingId}
          within={within}
          chosen={chosen}
          onDone={() => setChosen(nothing)}
        />
      ) : null}
    </section>
  );
}
