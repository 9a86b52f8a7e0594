import { type KeyboardEvent, type MouseEvent, useId, useState } from 'react';
import { useFormat } from '../words/format.ts';
import { useWords } from '../words/words.tsx';
import { Field } from './field.tsx';
import { type PlaceOnSheet, placedOrTaken, reachFor, snapped } from './sheet-of-places.ts';

const reaches = [50, 100, 150, 200, 300] as const;
const steps = [1, 2.5, 5, 10] as const;
/** Half a side of the drawing, in its own units. */
const half = 200;

interface BoltSheetProps {
  readonly places: readonly PlaceOnSheet[];
  readonly onPlaces: (places: readonly PlaceOnSheet[]) => void;
  readonly most: number;
}

/**
 * A squared sheet on which fasteners are set by a tap, in tightening order; a tap on one takes it out. With keys the
 * arrows move the cross and Enter sets.
 */
export function BoltSheet({ places, onPlaces, most }: BoltSheetProps) {
  const words = useWords().boltSheet;
  const format = useFormat();
  const hint = useId();
  const [wanted, setWanted] = useState<number>(100);
  const [step, setStep] = useState<number>(5);
  const [cross, setCross] = useState<PlaceOnSheet>({ x: 0, y: 0 });
  const reach = reachFor(places, reaches, wanted);
  const set = (at: PlaceOnSheet) => {
    setCross(at);
    const next = placedOrTaken(places, at);
    if (next.length <= most) onPlaces(next);
  };
  const press = (event: MouseEvent<HTMLButtonElement>) => {
    // A press by key has no place of its own: the cross is where it goes.
    if (event.detail === 0) return set(cross);
    const box = event.currentTarget.getBoundingClientRect();
    const at = (offset: number, length: number) => (offset / length - 0.5) * 2 * reach;
    set(
      snapped(
        { x: at(event.clientX - box.left, box.width), y: -at(event.clientY - box.top, box.height) },
        { step, reach },
      ),
    );
  };
  const move = (event: KeyboardEvent<HTMLButtonElement>) => {
    const by = moves[event.key];
    if (by === undefined) return;
    event.preventDefault();
    setCross(snapped({ x: cross.x + by.x * step, y: cross.y + by.y * step }, { step, reach }));
  };
  return (
    <div className="bolt-sheet">
      <div className="bolt-sheet-set">
        <Figures label={words.reach} of={reaches} value={reach} onChange={setWanted} />
        <Figures label={words.step} of={steps} value={step} onChange={setStep} />
      </div>
      <div className="bolt-sheet-paper">
        <button
          type="button"
          aria-label={words.sheet(places.length)}
          aria-describedby={hint}
          onClick={press}
          onKeyDown={move}
        />
        <Paper places={places} cross={cross} reach={reach} />
      </div>
      <p id={hint} className="note">
        {words.how}
      </p>
      <p className="num" aria-live="polite">
        {words.cross(format.decimal(String(cross.x)), format.decimal(String(cross.y)))}
      </p>
    </div>
  );
}

const moves: Readonly<Record<string, PlaceOnSheet>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};

interface FiguresProps {
  readonly label: string;
  readonly of: readonly number[];
  readonly value: number;
  readonly onChange: (value: number) => void;
}

function Figures({ label, of, value, onChange }: FiguresProps) {
  const offered = of.includes(value) ? of : [...of, value];
  return (
    <Field label={label}>
      {(input) => (
        <select {...input} value={value} onChange={({ target }) => onChange(Number(target.value))}>
          {offered.map((one) => (
            <option key={one} value={one}>
              {one} mm
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

interface PaperProps {
  readonly places: readonly PlaceOnSheet[];
  readonly cross: PlaceOnSheet;
  readonly reach: number;
}

/** The squares, the middle, every fastener with its number, and the cross that the arrow keys move. */
function Paper({ places, cross, reach }: PaperProps) {
  const square = reach > 150 ? 50 : reach > 50 ? 20 : 10;
  const scale = half / reach;
  const lines = Array.from({ length: 2 * Math.floor(reach / square) + 1 }, (_, index) => {
    const at = (index - Math.floor(reach / square)) * square * scale;
    return `M${at} ${-half}V${half}M${-half} ${at}H${half}`;
  });
  const [x, y] = [cross.x * scale, -cross.y * scale];
  return (
    <svg className="dwg" viewBox={`${-half} ${-half} ${2 * half} ${2 * half}`} aria-hidden="true" fill="none">
      <path d={lines.join('')} className="bolt-sheet-squares" />
      <path d={`M${-half} 0H${half}M0 ${-half}V${half}`} className="cl" />
      <path d={`M${x - 12} ${y}H${x + 12}M${x} ${y - 12}V${y + 12}`} className="w bolt-sheet-cross" />
      {places.map((place, index) => (
        <g key={`${place.x} ${place.y}`}>
          <circle cx={place.x * scale} cy={-place.y * scale} r={13} className="w f-paper" />
          <text x={place.x * scale} y={-place.y * scale + 4.5} textAnchor="middle" className="tn b">
            {index + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}
