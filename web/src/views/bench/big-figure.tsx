import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import type { EntryProps } from './entry.ts';

/** The big figure as it is typed, its unit and the temperature it is taken at. */
export function BigFigure({ measuring, text, open }: EntryProps & { readonly text: string }) {
  const { measure } = useWords();
  const format = useFormat();
  const { part, gauge } = measuring.temperature;
  const warm =
    part === ''
      ? measure.temperature.notSaid
      : gauge === ''
        ? measure.temperature.shown(format.decimal(part))
        : measure.temperature.shownBoth(format.decimal(part), format.decimal(gauge));
  return (
    <div className="figure-line">
      <output aria-live="off" className={text.length > 16 ? 'long' : text.length > 7 ? 'longer' : undefined}>
        {text}
        <i />
      </output>
      <span className="big-side">
        <span>{measuring.unit}</span>
        {measuring.dimension.kind === 'length' ? (
          <button
            type="button"
            className="btn warm"
            aria-label={`${measure.temperature.set}: ${warm}`}
            onClick={() => open('temperature')}
          >
            {warm}
          </button>
        ) : null}
      </span>
    </div>
  );
}
