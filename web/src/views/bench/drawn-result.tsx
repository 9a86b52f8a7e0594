import type { FindingSimulation } from '#contracts/finding-simulations.ts';
import type { Quantity } from '#contracts/wire.ts';
import { Histogram } from '../../drawings/histogram.tsx';
import { useFormat } from '../../words/format.ts';
import { quantityText, symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { useWidth } from '../engine/use-width.ts';
import { percent } from './percent.ts';

export interface DrawnFindingProps {
  readonly findingId: string;
  readonly name: string;
  /** Limits that the verdict was held against, in the printed unit. */
  readonly limits: readonly { readonly side: 'lower' | 'upper'; readonly value: string }[];
  /** Whether the result varies from place to place. */
  readonly span: boolean;
}

interface DrawnResultProps extends Omit<DrawnFindingProps, 'findingId'> {
  readonly drawn: FindingSimulation;
}

/** Figures are told to the second digit of u: what comes after says nothing. */
const finely = (drawn: FindingSimulation, decimal: (text: string) => string) => {
  const u = number(drawn.standardUncertainty);
  const decimals = u > 0 ? Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(u)))) : 6;
  return ({ value }: { readonly value: string }): string => decimal(Number(value).toFixed(decimals));
};

const number = ({ value }: { readonly value: string }): number => Number(value);

function Picture({ drawn, name, limits }: DrawnResultProps) {
  const { drawnFinding: words } = useWords();
  const format = useFormat();
  const { histogram, closedForm, symmetric, trials, mean } = drawn;
  const [box, width] = useWidth<HTMLDivElement>(560);
  const fine = finely(drawn, format.decimal);
  const ends = [fine(symmetric.low), fine(symmetric.high)] as const;
  return (
    <div ref={box}>
      <Histogram
        label={words.picture(name, ...ends)}
        bins={{ low: number(histogram.low), high: number(histogram.high), counts: histogram.counts }}
        trials={trials}
        curve={
          closedForm === null ? null : { mean: number(closedForm.value), sd: number(closedForm.standardUncertainty) }
        }
        interval={{ low: number(symmetric.low), high: number(symmetric.high), text: words.within(...ends) }}
        limits={limits.map(({ side, value }) => ({
          value: Number(value),
          text: words.limit(side, format.decimal(value)),
        }))}
        unit={symbolOf(mean.unit)}
        format={format.number}
        width={width}
      />
    </div>
  );
}

/** What many trials came to, beside the closed form, and whether the normal curve serves. */
export function DrawnResult(props: DrawnResultProps) {
  const { drawn, span } = props;
  const { drawnFinding: words } = useWords();
  const format = useFormat();
  const { closedForm: closed, symmetric, shortest, probabilityPast: past } = drawn;
  const fine = finely(drawn, format.decimal);
  const told = (quantity: Quantity) => quantityText({ ...quantity, value: fine(quantity) });
  const between = ({ low, high }: FindingSimulation['symmetric']) =>
    `${fine(low)} – ${fine(high)} ${symbolOf(high.unit)}`;
  const rows = [
    [words.mean, told(drawn.mean), closed && told(closed.value)],
    [words.u, told(drawn.standardUncertainty), closed && told(closed.standardUncertainty)],
    [words.symmetric, between(symmetric), closed && between(closed.interval)],
    [words.shortest, between(shortest), null],
    [words.past, past === null ? '–' : percent(past), null],
  ] as const;
  return (
    <div className="drawn-result">
      <p>
        <b>{format.decimal(drawn.words)}</b>
      </p>
      <Picture {...props} />
      <p className="note">{closed === null ? words.legendWithoutCurve : words.legend}</p>
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <td />
              <th scope="col" className="n">
                {words.drawn}
              </th>
              <th scope="col" className="n">
                {words.closed}
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([what, byChance, byForm]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td className="n">{byChance}</td>
                <td className="n">{byForm}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {span ? <p className="note">{words.side[drawn.side]}</p> : null}
      {drawn.fromRegister.length === 0 ? null : (
        <p className="note">{words.fromRegister(drawn.fromRegister.join(', '))}</p>
      )}
      <p className="note">
        {words.by(format.number(drawn.trials), String(drawn.seed), drawn.madeBy.name, format.since(drawn.madeAt))}
      </p>
    </div>
  );
}
