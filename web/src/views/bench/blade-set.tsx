import { useEffect, useRef } from 'react';
import type { BenchInstrument } from '#contracts/bench.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { type BladesKeyed, type Side, tapBlade, thickness } from './blades.ts';

interface BladeSetProps {
  readonly gauge: BenchInstrument;
  readonly keyed: BladesKeyed;
  readonly together: boolean;
  /** About where the gap should lie: the blades there come into view. */
  readonly near: number | null;
  readonly onKeyed: (keyed: BladesKeyed) => void;
}

const isIn = (side: Side, blade: string): boolean => side?.includes(blade) === true;

/** The set's blades as big taps, thinnest first; those that can't be the thicker one are out of reach. */
export function BladeSet({ gauge, keyed, together, near, onKeyed }: BladeSetProps) {
  const { measure } = useWords();
  const format = useFormat();
  const goes = thickness(keyed.go);
  const set = useRef<HTMLFieldSetElement>(null);
  useEffect(() => {
    const box = set.current;
    const index = gauge.blades.findIndex(({ thickness: { value } }) => Number(value) >= (near ?? 0));
    const blade = box?.children[index];
    if (box === null || !(blade instanceof HTMLElement)) return;
    box.scrollTop = blade.offsetTop - box.offsetTop - box.clientHeight / 2;
    box.scrollLeft = blade.offsetLeft - box.offsetLeft - box.clientWidth / 2;
  }, [gauge, near]);
  return (
    <fieldset ref={set} className="blade-set" aria-label={measure.blades.set}>
      {gauge.blades.map(({ thickness: { value } }) => {
        const tooThin = keyed.asked === 'noGo' && goes !== null && !together && Number(value) <= goes;
        const chosen = isIn(keyed.go, value) ? 'goes' : isIn(keyed.noGo, value) ? 'does-not' : '';
        return (
          <button
            key={value}
            type="button"
            className={`key blade ${chosen}`}
            disabled={tooThin}
            aria-pressed={chosen !== ''}
            aria-label={measure.blades.blade(value)}
            onClick={() => onKeyed(tapBlade(keyed, value, together))}
          >
            {format.decimal(value)}
          </button>
        );
      })}
    </fieldset>
  );
}

interface BladeSidesProps {
  readonly keyed: BladesKeyed;
  readonly onKeyed: (keyed: BladesKeyed) => void;
  /** The side that is said now, where that isn't the one asked. */
  readonly asked?: BladesKeyed['asked'];
}

/** What goes in and what does not, side by side; a tap on one asks for it. */
export function BladeSides({ keyed, onKeyed, asked: side = keyed.asked }: BladeSidesProps) {
  const { measure } = useWords();
  const format = useFormat();
  const shown = (side: Side) =>
    side === undefined ? measure.blades.open : side === null ? measure.blades.none : format.decimal(side.join('+'));
  const box = (name: 'go' | 'noGo', label: string) => {
    const asked = side === name;
    return (
      <button
        type="button"
        className={asked ? 'blade-side asked' : 'blade-side'}
        aria-pressed={asked}
        onClick={() => onKeyed({ ...keyed, asked: name })}
      >
        <span className="note">{label}</span>
        <b className="num">{shown(keyed[name])}</b>
      </button>
    );
  };
  return (
    <div className="blade-sides">
      {box('go', measure.blades.go)}
      {box('noGo', measure.blades.noGo)}
    </div>
  );
}
