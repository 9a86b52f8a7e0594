import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BladePad } from './blade-pad.tsx';
import { BladeSides } from './blade-set.tsx';
import { type BladesKeyed, type Side, sideText } from './blades.ts';
import { ChecksSaid } from './checks-said.tsx';
import { DonePanel } from './done-panel.tsx';
import { type EntryProps, useStripWidth } from './entry.ts';
import type { Filling } from './measuring.ts';
import { MendCards, QuestionCard } from './mend-cards.tsx';
import { QuestionFoot } from './question-foot.tsx';
import { QuestionHead } from './question-head.tsx';
import { useBladesKeying } from './use-blades-keying.ts';
import type { Measuring, Said } from './use-measuring.ts';
import { usePreview } from './use-preview.ts';
import { ReadingStrip, VerdictPanel } from './verdict-panel.tsx';

function BladesSoFar({
  measuring,
  said,
  onKept,
}: {
  readonly measuring: Measuring;
  /** What can be kept as it stands. */
  readonly said: readonly Said[];
  readonly onKept: () => void;
}) {
  const { measure } = useWords();
  const width = useStripWidth();
  const { dimension } = measuring;
  const previewed = usePreview(measuring.bench.jobId, measuring.bodyOf(said));
  const preview = previewed.state === 'there' ? previewed.preview : undefined;
  const whole = preview?.findings.find(({ dimension: code }) => code === dimension.code);
  const finding = whole ?? preview?.typed.at(-1)?.alone ?? undefined;
  const question = preview?.typed.flatMap(({ questions }) => questions)[0];
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
          mayConfirm={!question.refused && said.length === 1}
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
      <ChecksSaid preview={preview} />
    </>
  );
}

/** A feeler gauge gives an interval: the thickest blade that goes, the thinnest that does not. */
export function BladesEntry({ measuring, open }: EntryProps) {
  const width = useStripWidth();
  const keying = useBladesKeying(measuring);
  const { keyed, asked, filled, said, notice, say, clear } = keying;
  const { place, dimension } = measuring;
  return (
    <>
      <section className="q" aria-label={dimension.name}>
        <QuestionHead measuring={measuring} onList={() => open('list')} />
        {place === undefined || filled.length > 1 ? null : <BladeSides keyed={keyed} onKeyed={say} asked={asked} />}
        {notice === '' ? null : (
          <p className="hot" role="alert">
            {notice}
          </p>
        )}
        <MendCards measuring={measuring} />
        {filled.length > 1 ? <FilledPlaces filled={filled} /> : null}
        {place === undefined ? (
          <DonePanel measuring={measuring} width={width} />
        ) : (
          <BladesSoFar measuring={measuring} said={said} onKept={clear} />
        )}
        <QuestionFoot measuring={measuring} />
      </section>
      <BladePad measuring={measuring} open={open} keying={keying} />
    </>
  );
}

/** Which place gets which blades. */
function FilledPlaces({ filled }: { readonly filled: readonly Filling<BladesKeyed>[] }) {
  const { blades } = useWords().measure;
  const format = useFormat();
  const shown = (side: Side) => (side === undefined ? blades.open : format.decimal(sideText(side) ?? blades.none));
  return (
    <ul className="filled">
      {filled.map(({ place, value }) => (
        <li key={place.position.code}>
          <span className="note">{place.position.label}</span>{' '}
          <b className="num">
            {shown(value.go)} / {shown(value.noGo)}
          </b>
        </li>
      ))}
    </ul>
  );
}
