import type { Study, StudyResult } from '#contracts/gauge-studies.ts';
import { StudyPlot } from '../../drawings/study-plot.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { useWidth } from '../engine/use-width.ts';

interface ResultProps {
  readonly study: Study;
  readonly result: StudyResult;
}

const significant = (value: number, digits: number): number => (value === 0 ? 0 : Number(value.toPrecision(digits)));

interface SharesProps {
  readonly caption: string;
  readonly shares: readonly Pick<
    StudyResult['shares'][number],
    'source' | 'standardDeviation' | 'ofStudyVariation' | 'ofTolerance'
  >[];
}

/** Where the variation comes from: a bar and its figures for each source. */
function Shares({ caption, shares }: SharesProps) {
  const words = useWords().gauges.study;
  const format = useFormat();
  const percent = (share: number) => `${format.number(100 * share, 1)} %`;
  const tolerance = shares.some(({ ofTolerance }) => ofTolerance !== null);
  return (
    <table className="study-table">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th>{words.heads.source}</th>
          <th className="figure">{words.heads.sd}</th>
          <th className="figure">{words.heads.variation}</th>
          {tolerance ? <th className="figure">{words.heads.tolerance}</th> : null}
        </tr>
      </thead>
      <tbody>
        {shares.map(({ source, standardDeviation, ofStudyVariation, ofTolerance }) => (
          <tr key={source} className={source === 'gauge' ? 'most' : ''}>
            <th scope="row">{words.source[source]}</th>
            <td
              className="figure num"
              data-head={words.heads.sd}
            >{`${format.decimal(standardDeviation.value)} ${standardDeviation.unit}`}</td>
            <td className="figure num" data-head={words.heads.variation}>
              <meter min={0} max={1} value={Math.min(ofStudyVariation, 1)} aria-hidden="true" />
              <span className="study-share">{percent(ofStudyVariation)}</span>
            </td>
            {tolerance ? (
              <td className="figure num" data-head={words.heads.tolerance}>
                {ofTolerance === null ? '' : percent(ofTolerance)}
              </td>
            ) : null}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Anova({ study, result }: ResultProps) {
  const words = useWords().gauges.study;
  const heads = words.anovaHeads;
  return (
    <table className="study-table">
      <caption>{words.anova}</caption>
      <thead>
        <tr>
          <th>{heads.source}</th>
          {[heads.freedom, heads.squares(study.unit), heads.mean(study.unit), heads.f, heads.p].map((head) => (
            <th key={head} className="figure">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {result.anova.map(({ source, degreesOfFreedom, sumOfSquares, meanSquare, f, pValue }) => (
          <tr key={source}>
            <th scope="row">{words.source[source]}</th>
            <td className="figure num" data-head={heads.freedom}>
              {degreesOfFreedom}
            </td>
            <td className="figure num" data-head={heads.squares(study.unit)}>
              {significant(sumOfSquares, 4)}
            </td>
            <td className="figure num" data-head={heads.mean(study.unit)}>
              {source === 'total' ? '' : significant(meanSquare, 4)}
            </td>
            <td className="figure num" data-head={heads.f}>
              {f === null ? '' : significant(f, 4)}
            </td>
            <td className="figure num" data-head={heads.p}>
              {pValue === null ? '' : pValue < 0.0001 ? '< 0.0001' : significant(pValue, 3)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What a study found: in a sentence, drawn, and with every figure behind it. */
export function StudyFound({ study, result }: ResultProps) {
  const words = useWords().gauges.study;
  const format = useFormat();
  const [box, width] = useWidth<HTMLDivElement>(720);
  const readings = study.readings.flatMap(({ part, personId, trial, value }) =>
    value === null
      ? []
      : [{ part, trial, person: study.people.findIndex(({ id }) => id === personId), value: Number(value.value) }],
  );
  return (
    <section className="study-found" aria-labelledby="found">
      <h2 id="found">{words.result}</h2>
      <p className={result.standing === 'not fit' ? 'study-says hot' : 'study-says'}>
        <b>{result.words}</b>
      </p>
      <p>{words.categories(result.distinctCategories)}</p>
      <div ref={box}>
        <StudyPlot
          readings={readings}
          people={study.people.map(({ name }) => name)}
          label={words.plot(study.parts, study.people.length)}
          partWord={words.part}
          decimals={study.decimals}
          format={format.number}
          width={Math.min(Math.max(width, 320), 1400)}
        />
      </div>
      <div className="study-tables">
        <Shares caption={words.shares} shares={result.shares} />
        <Anova study={study} result={result} />
        <Shares caption={words.sharesByRange} shares={result.averageAndRange.shares} />
      </div>
      {study.people.length < 2 ? null : <p className="note">{result.pooled ? words.pooled : words.notPooled}</p>}
      <p className="note">{result.averageAndRange.words}</p>
      <p className="note">{words.rule}</p>
    </section>
  );
}
