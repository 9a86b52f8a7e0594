import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import { useWall } from '../../app/use-media.ts';
import { LimitStrip } from '../../drawings/limit-strip.tsx';
import { Verdict } from '../../drawings/verdict.tsx';
import { asksForAHand } from '../../drawings/verdict-kind.ts';
import { englishWords } from '../../drawings/words.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { CheckedAgainst } from './checked-against.tsx';
import { DrawnKey } from './drawn-key.tsx';
import { likelihoodInWords, stripReading, valueInWords } from './measured-words.ts';

type Dimension = EnginePage['measured'][number];
type Finding = Dimension['findings'][number];

const figure = (quantity: { readonly value: string } | null | undefined): number | null =>
  quantity === null || quantity === undefined ? null : Number(quantity.value);

function DimensionStrip({
  dimension,
  finding,
}: {
  readonly dimension: Dimension;
  readonly finding: Finding | undefined;
}) {
  const words = useWords().engine;
  const format = useFormat();
  const wall = useWall();
  const limits = finding?.limits ?? dimension.limits;
  if (limits === null || dimension.method === 'felt') return <span />;
  const span = finding?.value.type === 'span';
  return (
    <LimitStrip
      label={dimension.name}
      standard={[figure(limits.standard.low), figure(limits.standard.high)]}
      lower={figure(limits.service.low)}
      upper={figure(limits.service.high)}
      reading={finding === undefined ? null : stripReading(finding.value, finding.guard.value)}
      earlier={dimension.earlier.map(({ value }) => Number(value.value))}
      verdict={finding?.verdict ?? 'not measured'}
      decimals={dimension.decimals}
      unit={dimension.unit}
      format={format.number}
      width={wall ? 620 : 430}
      compact
      words={span ? { ...englishWords, strip: { ...englishWords.strip, interval: words.value.between } } : englishWords}
    />
  );
}

function DimensionRow({
  dimension,
  finding,
  first,
  told,
}: {
  readonly dimension: Dimension;
  readonly finding: Finding | undefined;
  readonly first: boolean;
  readonly told: boolean;
}) {
  const words = useWords().engine;
  const format = useFormat();
  // What is well takes one line, unless all is asked for: what needs a hand stands out by its room alone.
  const brief =
    !told &&
    finding !== undefined &&
    !asksForAHand(finding.verdict) &&
    finding.crossChecks.every(({ agrees }) => agrees);
  const nearest = finding?.nearestLimit ?? null;
  const note = finding === undefined ? undefined : likelihoodInWords(finding.pPast, words);
  const round = finding === undefined ? '' : words.rounds[finding.round];
  return (
    <li className={brief ? 'measure-row brief' : 'measure-row'}>
      <div className="measure-name">
        {first ? <b>{dimension.name}</b> : <span className="visually-hidden">{dimension.name}</span>}
        <span className="note line">
          {[
            round,
            first && dimension.sizeClass !== '' && dimension.sizeClass !== 'standard'
              ? words.sizeClass(dimension.sizeClass)
              : '',
          ]
            .filter((part) => part !== '')
            .join(', ')}
        </span>
      </div>
      <DimensionStrip dimension={dimension} finding={finding} />
      <div className="measure-value num">
        {finding === undefined ? (
          '–'
        ) : (
          <b>
            {words.withUnit(
              valueInWords(finding.value, format, words),
              finding.value.type === 'felt' ? '' : dimension.unit,
            )}
          </b>
        )}
        {finding?.value.type === 'point' && Number(finding.guard.value) > 0 ? (
          <span className="note line">± {format.decimal(finding.guard.value)}</span>
        ) : null}
      </div>
      <div className="measure-verdict">
        <Verdict verdict={finding?.verdict ?? 'not measured'} {...(note === undefined ? {} : { note })} />
        <span className="note line more">
          {finding === undefined
            ? dimension.limits === null
              ? words.noLimits(dimension.sizeClass)
              : ''
            : [
                nearest === null ? '' : words.limitIs(nearest.side, format.decimal(nearest.value.value)),
                words.judgedBy(finding.judgedBy.name, format.since(finding.judgedAt)),
                finding.instruments.join(', '),
                words.byRevision(finding.revision),
              ]
                .filter((part) => part !== '')
                .join(' · ')}
        </span>
        {finding === undefined || finding.value.type === 'felt' ? null : (
          <DrawnKey finding={finding} name={dimension.name} />
        )}
        {finding === undefined ? null : <CheckedAgainst checks={finding.crossChecks} />}
        {finding?.warnings.map(({ code, words: warning }) => (
          <span key={code} className="note line more">
            {warning}
          </span>
        ))}
      </div>
    </li>
  );
}

/** The newest round of each dimension, and of the earlier ones those that asked for a hand. */
const tells = ({ verdict }: Finding, round: number): boolean => round === 0 || asksForAHand(verdict);

/** Every dimension of the sheet: its scale, what was read in each round, and the verdict. */
export function MeasuredSection({ measured }: { readonly measured: EnginePage['measured'] }) {
  const words = useWords().engine;
  const [all, setAll] = useState(false);
  const [earlier, setEarlier] = useState(false);
  const [told, setTold] = useState(false);
  const rounds = (dimension: Dimension) => (earlier ? dimension.findings : dimension.findings.filter(tells));
  const older = measured.some((dimension) => dimension.findings.some((finding, round) => !tells(finding, round)));
  const some = measured.some(({ findings }) => findings.length > 0);
  const shown = all || !some ? measured : measured.filter(({ findings }) => findings.length > 0);
  const hidden = measured.length - shown.length;
  const places = [...new Map(shown.map(({ place }) => [place.code, place])).values()];
  const rules = new Set(measured.flatMap(({ findings }) => findings.map(({ rule }) => rule)));
  return (
    <section className="page-part" aria-labelledby="measured">
      <h2 id="measured">{words.measured}</h2>
      {measured.length === 0 ? <p className="note">{words.nothingMeasured}</p> : null}
      {places.map((place) => (
        <section key={place.code} aria-label={place.name}>
          <h3 className="measure-place">{place.name}</h3>
          <ul>
            {shown
              .filter((dimension) => dimension.place.code === place.code)
              .flatMap((dimension) =>
                dimension.findings.length === 0
                  ? [<DimensionRow key={dimension.dimension} dimension={dimension} finding={undefined} first told />]
                  : rounds(dimension).map((finding, round) => (
                      <DimensionRow
                        key={finding.id}
                        dimension={dimension}
                        finding={finding}
                        first={round === 0}
                        told={told}
                      />
                    )),
              )}
          </ul>
        </section>
      ))}
      <div className="measure-more no-print">
        {hidden > 0 ? <Button onClick={() => setAll(true)}>{words.showAll(hidden)}</Button> : null}
        {some ? (
          <Button aria-expanded={told} onClick={() => setTold(!told)}>
            {told ? words.hideTold : words.showTold}
          </Button>
        ) : null}
        {older ? (
          <Button aria-expanded={earlier} onClick={() => setEarlier(!earlier)}>
            {earlier ? words.hideEarlier : words.showEarlier}
          </Button>
        ) : null}
      </div>
      {[...rules].map((rule) => (
        <p key={rule} className="note">
          {words.rules[rule] ?? rule}
        </p>
      ))}
    </section>
  );
}
