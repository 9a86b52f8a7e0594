import type { BenchDimension } from '#contracts/bench.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BladeSet } from './blade-set.tsx';
import { noBlades, saySide, sideText } from './blades.ts';
import type { EntryProps } from './entry.ts';
import type { BladesKeying } from './use-blades-keying.ts';

/** The middle of the standard range, or what there is of it. */
function nearOf({ limits: { standard } }: BenchDimension): number | null {
  const ends = [standard.low, standard.high].flatMap((end) => (end === null ? [] : [Number(end.value)]));
  return ends.length === 0 ? null : ends.reduce((sum, end) => sum + end, 0) / ends.length;
}

/** The blades, what else may be said of a side, and the act that ends it. */
export function BladePad({ measuring, open, keying }: EntryProps & { readonly keying: BladesKeying }) {
  const { keyed, together, filled, ready, say, layTogether, enter, again } = keying;
  const { measure } = useWords();
  const format = useFormat();
  const { place, instrument, next, dimension, standings } = measuring;
  const closed = place === undefined;
  const someRead = standings.some(({ taken }) => taken.length > 0);
  const [go, noGo] = [sideText(keyed.go), sideText(keyed.noGo)].map((one) =>
    one === null ? null : format.decimal(one),
  );
  const label = closed
    ? next === undefined
      ? measure.done.all
      : measure.done.next(next.name)
    : !ready
      ? measure.blades.sayBoth
      : filled.length > 1
        ? measure.keepMany(filled.length)
        : go == null
          ? measure.blades.keepNone(noGo ?? '')
          : noGo == null
            ? measure.blades.keepAll(go)
            : measure.blades.keep(go, noGo);
  const act = (words: string, onPress: () => void, of: { disabled?: boolean; pressed?: boolean } = {}) => (
    <button
      type="button"
      className="key act"
      disabled={of.disabled ?? closed}
      aria-pressed={of.pressed}
      onClick={onPress}
    >
      {words}
    </button>
  );
  return (
    <section className="pad blades" aria-label={measure.blades.set}>
      {instrument === undefined || closed ? null : (
        <BladeSet gauge={instrument} keyed={keyed} together={together} near={nearOf(dimension)} onKeyed={say} />
      )}
      {act(keyed.asked === 'go' ? measure.blades.noneGoes : measure.blades.allGo, () => say(saySide(keyed, null)))}
      {act(measure.blades.together, () => layTogether(!together), { pressed: together })}
      {act(measure.again, again, { disabled: !someRead })}
      {act(measure.cannot, measuring.passOver)}
      {act(measure.otherGauge, () => open('gauge'))}
      {act(measure.erase, () => say(noBlades))}
      <button type="button" className="key go" disabled={closed ? next === undefined : !ready} onClick={enter}>
        {label}
      </button>
    </section>
  );
}
