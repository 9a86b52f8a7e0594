import type { EnginePage } from '#contracts/engines.ts';
import { BoreMap } from '../../drawings/bore-map.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { valueInWords } from './measured-words.ts';
import { useWidth } from './use-width.ts';

type Map = EnginePage['boreMaps'][number];
type MeasuredValue = NonNullable<Map['taper']>;

const pointOf = (value: MeasuredValue | null): number | null =>
  value?.type === 'point' ? Number(value.value.value) : null;

const decimalsOf = (map: Map): number =>
  map.levels
    .flatMap(({ values }) => values)
    .reduce((most, { value }) => Math.max(most, value.value.split('.')[1]?.length ?? 0), 0);

function BoreFigures({ map }: { readonly map: Map }) {
  const words = useWords().engine;
  const format = useFormat();
  return (
    <div className="table-room">
      <table>
        <thead>
          <tr>
            <th>{words.level}</th>
            <th className="n">{words.heightBelowDeck}</th>
            {map.axes.map((axis) => (
              <th key={axis} className="n">
                {axis}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {map.levels.map(({ level, height, values }) => (
            <tr key={level}>
              <td className="num">{level}</td>
              <td className="n">{height === null ? '–' : words.withUnit(format.decimal(height.value), height.unit)}</td>
              {map.axes.map((axis) => {
                const read = values.find((value) => value.axis === axis)?.value;
                return (
                  <td key={axis} className="n">
                    {read === undefined ? '–' : format.decimal(read.value)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

type Props = { readonly map: Map; readonly nominal: number | null; readonly limit: number | null };

/** The bore as it was read, drawn and in figures. */
export function BoreMapSection({ map, nominal, limit }: Props) {
  const words = useWords().engine;
  const format = useFormat();
  const [box, width] = useWidth<HTMLDivElement>(640);
  const [across, along] = map.axes;
  const read = (values: Map['levels'][number]['values'], axis: string | undefined): number | null => {
    const value = values.find((one) => one.axis === axis)?.value.value;
    return value === undefined ? null : Number(value);
  };
  const levels = map.levels.flatMap(({ height, values }) =>
    height === null ? [] : [{ height: Number(height.value), across: read(values, across), along: read(values, along) }],
  );
  const drawable = nominal !== null && levels.length === map.levels.length && levels.length > 0;
  const heading = `bore-${map.dimension}`;
  return (
    <section className="page-part" aria-labelledby={heading}>
      <h2 id={heading}>{words.boreMap(map.name)}</h2>
      <div ref={box}>
        {drawable && nominal !== null ? (
          <BoreMap
            levels={levels}
            nominal={nominal}
            limit={limit}
            result={{ outOfRound: pointOf(map.outOfRound), taper: pointOf(map.taper) }}
            decimals={decimalsOf(map)}
            format={format.number}
            narrow={width < 560}
          />
        ) : (
          <>
            <p className="note">{words.noHeights}</p>
            <BoreFigures map={map} />
          </>
        )}
      </div>
      <p className="note">
        {(map.correctedTo20Degrees ? words.corrected : words.notCorrected)(words.rounds[map.round])}
      </p>
      {drawable ? (
        <details>
          <summary>{words.figures}</summary>
          <BoreFigures map={map} />
          {map.outOfRound === null || map.outOfRound.type === 'point' ? null : (
            <p className="note">{valueInWords(map.outOfRound, format, words)}</p>
          )}
        </details>
      ) : null}
    </section>
  );
}
