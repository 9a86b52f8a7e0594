import type { RunPiece } from '#contracts/procedure-runs.ts';
import { useMedia } from '../../app/use-media.ts';
import { RackDrawing } from '../../drawings/rack-drawing.tsx';
import { rackPieceOf } from '../../drawings/rack-facts.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import type { Counts } from './counts.ts';
import { toggled } from './rack-wells.ts';

/** Which places of its rack the pieces of one line are from, or that nobody can tell. */
export type OffPlaces = ReadonlySet<string> | 'not known';

const none: ReadonlySet<string> = new Set();

/** Some of a set kept in order are off, so it is said which; a whole set needs no saying. */
export const asksWhich = ({ id, places, expected }: RunPiece, counts: Counts): boolean =>
  places.length > 0 && counts.of(id) > 0 && counts.of(id) < expected;

/** As many places as pieces are named, or it is said that nobody can tell. */
export const isSaid = (piece: RunPiece, counts: Counts, said: OffPlaces | undefined): boolean =>
  !asksWhich(piece, counts) || said === 'not known' || said?.size === counts.of(piece.id);

interface OffPlacesProps {
  readonly piece: RunPiece;
  readonly counts: Counts;
  readonly said: OffPlaces | undefined;
  readonly disabled: boolean;
  readonly onSay: (said: OffPlaces) => void;
}

/** Before they are counted off: tapped in the drawing of the rack they will lie in. One place more tapped is one piece more. */
export function OffPlacesChoice({ piece, counts, said, disabled, onSay }: OffPlacesProps) {
  const { rack: words } = useWords().tally;
  const phone = useMedia('(max-width: 760px)');
  if (!asksWhich(piece, counts)) return null;
  const chosen = said === undefined || said === 'not known' ? none : said;
  const tap = (code: string) => {
    const after = toggled(chosen, code);
    if (after.size > counts.of(piece.id)) counts.set(piece.id, after.size);
    onSay(after);
  };
  const wells = piece.places.map(({ code, name, side }) => ({
    ...{ code, name, side, from: code, fromName: name, elsewhere: '' },
    filled: chosen.has(code),
  }));
  return (
    <fieldset className="rack-choice" disabled={disabled}>
      <legend>
        <b>{words.offWhich(piece.name)}</b>
      </legend>
      <p className="note">{said === 'not known' ? words.notKnownWhy : words.offWhichWhy(counts.of(piece.id))}</p>
      <div className="rack-drawn">
        <RackDrawing
          name={piece.name}
          piece={rackPieceOf(piece.name)}
          wells={wells}
          chosen={chosen}
          across={phone ? 4 : 8}
          {...(disabled ? {} : { onPlace: tap })}
        />
      </div>
      <Button big aria-pressed={said === 'not known'} onClick={() => onSay(said === 'not known' ? none : 'not known')}>
        {words.notKnown}
      </Button>
    </fieldset>
  );
}
