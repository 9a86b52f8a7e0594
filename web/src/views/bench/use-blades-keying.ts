import { useState } from 'react';
import { useWords } from '../../words/words.tsx';
import { type BladesKeyed, bladesTyped, intervalOf, isUpsideDown, isWhole, noBlades } from './blades.ts';
import { type Filling, fillInOrder, valuesIn } from './measuring.ts';
import { type KeyPress, letGo, useCommands, useKeys } from './use-keys.ts';
import type { Measuring, Said } from './use-measuring.ts';

const saidOf = (filled: readonly Filling<BladesKeyed>[]): readonly Said[] =>
  filled.map(({ place, value }) => ({ place, what: { interval: intervalOf(value) } }));

const isSaid = (keyed: BladesKeyed): boolean => isWhole(keyed) && !isUpsideDown(keyed);

/** The side that a figure is being typed for; a space ends it. */
function askedBy(
  keyed: BladesKeyed,
  { text, values }: { readonly text: string; readonly values: readonly string[] },
): BladesKeyed['asked'] {
  const ended = text.endsWith(' ') ? values : values.slice(0, -1);
  return bladesTyped(keyed, ended.slice(0, 2))[0]?.asked ?? keyed.asked;
}

export interface BladesKeying {
  /** What is tapped and typed at the asked place; of more than one place, what was tapped. */
  readonly keyed: BladesKeyed;
  readonly asked: BladesKeyed['asked'];
  readonly filled: readonly Filling<BladesKeyed>[];
  /** All of it can be kept as it stands. */
  readonly ready: boolean;
  readonly said: readonly Said[];
  readonly together: boolean;
  readonly notice: string;
  readonly say: (keyed: BladesKeyed) => void;
  readonly layTogether: (together: boolean) => void;
  readonly clear: () => void;
  readonly enter: () => void;
  readonly again: () => void;
}

/** Blades tapped or typed: "0.30 0.33" for a place, pairs in a row for places in order, "-" for none. */
export function useBladesKeying(measuring: Measuring): BladesKeying {
  const { measure } = useWords();
  const [tapped, setTapped] = useState(noBlades);
  const [text, setText] = useState('');
  const [together, layTogether] = useState(false);
  const [notice, setNotice] = useState('');
  const { place, next, dimension, standings } = measuring;
  const values = valuesIn(text, measuring.unit);
  const typed = bladesTyped(tapped, values);
  const keyed = typed.length === 1 ? (typed[0] ?? tapped) : tapped;
  const { filled, over } = place === undefined ? { filled: [], over: [] } : fillInOrder(typed, place, standings);
  const ready = place !== undefined && over.length === 0 && typed.every(isSaid);
  const said = ready ? saidOf(filled) : [];

  const say = (now: BladesKeyed) => {
    setText('');
    setTapped(now);
  };
  const clear = () => say(noBlades);
  const keep = (stay = false) => {
    measuring.keep(said, { stay });
    clear();
    layTogether(false);
  };
  const again = () => {
    const read = standings.findLast(({ taken }) => taken.length > 0)?.position.code;
    if (read !== undefined) measuring.choose({ position: read });
  };
  const enter = () => {
    if (place === undefined) {
      setText('');
      if (values.length > 0) setNotice(measure.notTaken(text.trim(), dimension.name));
      else if (next !== undefined) measuring.choose({ code: next.code });
    } else if (ready) keep();
    else if (typed.length === 1) say(keyed);
    else setNotice(measure.blades.twoToAPlace);
  };
  const isUntouched = text === '' && tapped === noBlades;
  const hear = (press: KeyPress) => {
    setNotice('');
    if (press.type === 'enter') enter();
    else if (press.type === 'clear') {
      if (isUntouched) measuring.choose({ position: null });
      clear();
    } else if (press.type === 'erase') setText((before) => before.slice(0, -1));
    else {
      letGo();
      setText((before) => (before + press.text).slice(0, 200));
    }
  };
  useKeys(hear);
  useCommands({ again: () => (ready ? keep(true) : again()), undo: isUntouched ? measuring.undoLast : clear });
  return {
    keyed,
    asked: askedBy(tapped, { text, values }),
    filled,
    ready,
    said,
    together,
    notice: typed.some(isUpsideDown) ? measure.blades.upsideDown : notice,
    say,
    layTogether,
    clear,
    enter,
    again,
  };
}
