import { type BoreLayout, type BoreLevel, levelName } from './bore-facts.ts';
import { at } from './coordinates.ts';
import { fillWith } from './hatch.tsx';
import type { DrawingWords } from './words.ts';

/** More heights than this are lettered on their lines, without a dimension line each. */
const STAGGERED = 4;

type HeightProps = { readonly levels: readonly BoreLevel[]; readonly layout: BoreLayout };

function Heights({ levels, layout }: HeightProps) {
  const { centre, radius, wall, top, heightAt } = layout;
  const start = centre + radius + 4;
  const first = centre + radius + wall + 12;
  const staggered = levels.length <= STAGGERED;
  return (
    <>
      <path
        d={`M${centre + radius + wall + 2} ${top}H${first + (staggered ? levels.length * 13 - 5 : 24)}`}
        className="n"
      />
      {levels.map(({ height }, index) => {
        const y = at(heightAt(height));
        const x = staggered ? first + index * 13 : first;
        return staggered ? (
          <g key={height}>
            <path d={`M${start} ${y}H${x + 4}M${x} ${top}V${y}`} className="n" />
            <path d={`M${x} ${top}l-2.6 8h5.2zM${x} ${y}l-2.6-8h5.2z`} className="f-ink" />
            <text x={x + 5} y={y - 6} className="tn bgp">
              {height}
            </text>
          </g>
        ) : (
          <g key={height}>
            <path d={`M${start} ${y}H${x}`} className="n" />
            <text x={x + 4} y={y + 4} className="tn">
              {height}
            </text>
          </g>
        );
      })}
    </>
  );
}

type Props = HeightProps & {
  readonly pattern: string;
  readonly nominal: string;
  readonly words: DrawingWords['bore'];
};

/** The barrel in section: levels by letter, heights dimensioned from the deck. */
export function BoreBarrel({ levels, layout, pattern, nominal, words }: Props) {
  const { centre, radius, wall, top, depth, heightAt } = layout;
  const [left, right, bottom] = [centre - radius, centre + radius, top + depth];
  const spigot = Math.min(34, depth / 6);
  return (
    <g data-layer="barrel">
      {([-1, 1] as const).map((side) => (
        <path
          key={side}
          d={`M${centre + side * (radius + wall)} ${top}H${centre + side * radius}V${bottom}H${centre + side * (radius + wall / 3)}V${at(bottom - spigot)}H${centre + side * (radius + wall)}Z`}
          className="w"
          fill={fillWith(pattern)}
        />
      ))}
      <path d={`M${left} ${bottom}H${right}M${left} ${top}H${right}`} className="n" />
      <path d={`M${centre} ${top - 16}V${bottom + 14}`} className="cl" />
      {levels.map(({ height }, index) => {
        const y = at(heightAt(height));
        return (
          <g key={height} data-level={levelName(index)}>
            <ellipse cx={centre} cy={y} rx={radius} ry={9} className="n faint" />
            <path d={`M${left} ${y}H${right}`} className="n" />
            <path d={`M${left} ${y}l7-3v6zM${right} ${y}l-7-3v6z`} className="f-ink" />
            <circle cx={left - wall - 14} cy={y} r={11} className="n f-paper" />
            <text x={left - wall - 14} y={y + 4.5} textAnchor="middle" className="tn b">
              {levelName(index)}
            </text>
          </g>
        );
      })}
      <Heights levels={levels} layout={layout} />
      <text x={centre} y={top - 28} textAnchor="middle" className="tn">
        {words.nominal(nominal)}
      </text>
      {words.heights.map((line, row) => (
        <text key={line} x={centre} y={bottom + 30 + row * 15} textAnchor="middle" className="tx2">
          {line}
        </text>
      ))}
    </g>
  );
}
