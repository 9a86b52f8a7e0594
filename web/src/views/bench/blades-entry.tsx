import { useState } from 'react';
import type { BenchDimension } from '#contracts/bench.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BladeSet, BladeSides } from './blade-set.tsx';
import { type BladesKeyed, bladesOf, intervalOf, isWhole, noBlades, saySide, sideText, thickness } from './blades.ts';
import { DonePanel } from './done-panel.tsx';
import { type EntryProps, useStripWidth } from './figure-entry.tsx';
import { valuesIn } from './measuring.ts';
import { MendCards, QuestionCard } from './mend-cards.tsx';
import { QuestionFoot } from './question-foot.tsx';
import { QuestionHead } from './question-head.tsx';
import { type KeyPress, useKeys } from './use-keys.ts';
import type { Measuring } from './use-measuring.ts';
import { usePreview } from './use-preview.ts';
import { ReadingStrip, VerdictPanel } from './verdict-panel.tsx';

/** The middle of the standard range, or what there is of it. */
function nearOf({ limits: { standard } }: BenchDimension): number | null {
  const ends = [standard.low, standard.high].flatMap((end) => (end === null ? [] : [Number(end.value)]));
  return ends.length === 0 ? null : ends.reduce((sum, end) => sum + end, 0) / ends.length;
}

const isUpsideDown = ({ go, noGo }: BladesKeyed): boolean => {
  const [thin, thick] = [thickness(go), thickness(noGo)];
  return thin !== null && thick !== null && thick <= thin;
};

function BladesSoFar({
  measuring,
  keyed,
  onKept,
}: {
  readonly measuring: Measuring;
  readonly keyed: BladesKeyed;
  readonly onKept: () => void;
}) {
  const { measure } = useWords();
  const width = useStripWidth();
  const { dimension, place } = measuring;
  const ready = place !== undefined && isWhole(keyed) && !isUpsideDown(keyed);
  const said = ready ? [{ place, what: { interval: intervalOf(keyed) } }] : [];
  const previewed = usePreview(measuring.bench.jobId, measuring.bodyOf(said));
  const preview = previewed.state === 'there' ? previewed.preview : undefined;
  const whole = preview?.findings.find(({ dimension: code }) => code === dimension.code);
  const finding = whole ?? preview?.typed[0]?.alone ?? undefined;
  const question = preview?.typed[0]?.questions[0];
  return (
    <>
      <ReadingStrip dimension={dimension} finding={finding} width={width} />
      {previewed.state === 'asking' ? <p className="note">{measure.verdict.asking}</p> : null}
      {previewed.state === 'offline' ? <p className="note">{measure.verdict.later}</p> : null}
      {previewed.state === 'refused' ? <p className="hot">{previewed.words}</p> : null}
      {question === undefined ? null : (
        <QuestionCard
          title={measure.mend.title}
          words={question.words}
          suggestion={null}
          mayConfirm={!question.refused}
          onSuggestion={() => undefined}
          onConfirm={(confirmReason) => {
            measuring.keep(said, { confirmReason });
            onKept();
          }}
        />
      )}
      {finding === undefined || question !== undefined ? null : (
        <VerdictPanel finding={finding} of={whole === undefined ? measure.verdict.alone : measure.verdict.whole} />
      )}
    </>
  );
}

type BladeActs = Pick<EntryProps, 'measuring' | 'open'> & {
  readonly keyed: BladesKeyed;
  readonly onKeyed: (keyed: BladesKeyed) => void;
  readonly together: boolean;
  readonly onTogether: (together: boolean) => void;
  readonly onMain: () => void;
};

/** The blades, what else may be said of a side, and the act that ends it. */
function BladePad({ measuring, open, keyed, onKeyed, together, onTogether, onMain }: BladeActs) {
  const { measure } = useWords();
  const format = useFormat();
  const { place, instrument, next, dimension, standings } = measuring;
  const closed = place === undefined;
  const read = standings.findLast(({ taken }) => taken.length > 0)?.position.code;
  const [go, noGo] = [sideText(keyed.go), sideText(keyed.noGo)].map((one) =>
    one === null ? null : format.decimal(one),
  );
  const label = closed
    ? next === undefined
      ? measure.done.all
      : measure.done.next(next.name)
    : !isWhole(keyed)
      ? measure.blades.sayBoth
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
        <BladeSet gauge={instrument} keyed={keyed} together={together} near={nearOf(dimension)} onKeyed={onKeyed} />
      )}
      {act(keyed.asked === 'go' ? measure.blades.noneGoes : measure.blades.allGo, () => onKeyed(saySide(keyed, null)))}
      {act(measure.blades.together, () => onTogether(!together), { pressed: together })}
      {act(measure.again, () => measuring.choose({ position: read ?? null }), { disabled: read === undefined })}
      {act(measure.cannot, measuring.passOver)}
      {act(measure.otherGauge, () => open('gauge'))}
      {act(measure.erase, () => onKeyed(noBlades))}
      <button
        type="button"
        className="key go"
        disabled={closed ? next === undefined : !isWhole(keyed) || isUpsideDown(keyed)}
        onClick={onMain}
      >
        {label}
      </button>
    </section>
  );
}

/** A feeler gauge gives an interval: the thickest blade that goes, the thinnest that does not. */
export function BladesEntry({ measuring, open }: EntryProps) {
  const { measure } = useWords();
  const width = useStripWidth();
  const [keyed, setKeyed] = useState(noBlades);
  const [text, setText] = useState('');
  const [together, setTogether] = useState(false);
  const [notice, setNotice] = useState('');
  const { place, next, dimension } = measuring;

  const keep = (what: BladesKeyed) => {
    if (place === undefined || !isWhole(what) || isUpsideDown(what)) return;
    measuring.keep([{ place, what: { interval: intervalOf(what) } }]);
    setKeyed(noBlades);
    setTogether(false);
  };
  const enter = () => {
    const values = valuesIn(text, measuring.unit);
    setText('');
    if (place === undefined) {
      if (values.length > 0) setNotice(measure.notTaken(text.trim(), dimension.name));
      else if (next !== undefined) measuring.choose({ code: next.code });
      return;
    }
    const typed = values.slice(0, 2).reduce((so, value) => saySide(so, bladesOf(value)), keyed);
    setKeyed(typed);
    if (isWhole(typed) && (values.length === 0 || values.length === 2 || keyed.asked === 'noGo')) keep(typed);
  };
  const hear = (press: KeyPress) => {
    setNotice('');
    if (press.type === 'enter') enter();
    else if (press.type === 'clear') {
      setText('');
      setKeyed(noBlades);
    } else if (press.type === 'erase') setText((before) => before.slice(0, -1));
    else setText((before) => (before + press.text).slice(0, 60));
  };
  useKeys({ busy: text !== '', hear });
  const said = isUpsideDown(keyed) ? measure.blades.upsideDown : notice;
  return (
    <>
      <section className="q" aria-label={dimension.name}>
        <QuestionHead measuring={measuring} onList={() => open('list')} />
        {place === undefined ? null : <BladeSides keyed={keyed} onKeyed={setKeyed} typing={text} />}
        {said === '' ? null : (
          <p className="hot" role="alert">
            {said}
          </p>
        )}
        <MendCards measuring={measuring} />
        {place === undefined ? (
          <DonePanel measuring={measuring} width={width} />
        ) : (
          <BladesSoFar measuring={measuring} keyed={keyed} onKept={() => setKeyed(noBlades)} />
        )}
        <QuestionFoot measuring={measuring} />
      </section>
      <BladePad
        measuring={measuring}
        open={open}
        keyed={keyed}
        onKeyed={setKeyed}
        together={together}
        onTogether={setTogether}
        onMain={() => (place === undefined ? enter() : keep(keyed))}
      />
    </>
  );
}
