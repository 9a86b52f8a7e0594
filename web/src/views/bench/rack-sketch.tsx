import type { Rack } from '#contracts/searches.ts';
import { useMedia } from '../../app/use-media.ts';
import { RackDrawing } from '../../drawings/rack-drawing.tsx';
import { rackPieceOf } from '../../drawings/rack-facts.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type Within, wellsOf } from './rack-wells.ts';
import './tally.css';

interface RackSketchProps {
  readonly rack: Rack;
  readonly chosen: ReadonlySet<string>;
  /** Drawn for one tray: what lies in another is drawn as lying elsewhere. */
  readonly within?: Within;
  readonly onPlace?: (code: string) => void;
}

/** The drawing of a rack, and in words what lies in another's place and why. */
export function RackSketch({ rack, chosen, within, onPlace }: RackSketchProps) {
  const { rack: words } = useWords().tally;
  const format = useFormat();
  const phone = useMedia('(max-width: 760px)');
  const wrong = rack.places.filter(({ swapped }) => swapped !== null);
  return (
    <>
      <div className="rack-drawn">
        <RackDrawing
          name={rack.name}
          piece={rackPieceOf(rack.name)}
          wells={wellsOf(rack, within, words.whereShort)}
          chosen={chosen}
          across={phone ? 4 : 8}
          {...(onPlace === undefined ? {} : { onPlace })}
        />
      </div>
      {wrong.length === 0 ? null : (
        <ul className="rack-wrong">
          {wrong.map(({ code, name, fromName, swapped }) => (
            <li key={code}>
              <b className="hot">{words.wrong(name, fromName)}</b>
              {swapped === null
                ? null
                : `. ${words.wrongWhy(swapped.reason, swapped.by.name, format.since(swapped.at))}`}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
