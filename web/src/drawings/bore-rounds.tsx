import { type BoreLayout, type BoreLevel, isReading, levelName, roundDown } from './bore-facts.ts';
import { at } from './coordinates.ts';
import type { DrawingWords } from './words.ts';

type Props = {
  readonly levels: readonly BoreLevel[];
  readonly layout: BoreLayout;
  readonly nominal: number;
  readonly limit: number | null;
  readonly letter: (value: number) => string;
  readonly words: DrawingWords['bore'];
};

/** Each level from above: nominal in a chain line, the limit dotted, the bore as it is, its form magnified. */
export function BoreRounds({ levels, layout, nominal, limit, letter, words }: Props) {
  const { roundsCentre: x, top, depth } = layout;
  const pitch = depth / Math.max(levels.length, 1);
  const room = Math.min(52, pitch / 2 - 2);
  const base = room * 0.45;
  const away = levels
    .flatMap(({ across, along }) => [across, along].filter(isReading))
    .map((value) => Math.abs(value - nominal));
  const most = Math.max(...away, limit === null ? 0 : Math.abs(limit - nominal));
  const magnification = most > 0 ? roundDown((room - base) / most) : 100;
  const radius = (value: number) => at(Math.max(1, base + (value - nominal) * magnification));
  const outer = limit === null ? base : radius(limit);
  return (
    <g data-layer="rounds">
      {levels.map(({ height, across, along }, index) => {
        const y = at(top + pitch * (index + 0.5));
        const both = isReading(across) && isReading(along);
        return (
          <g key={height}>
            <circle cx={x} cy={y} r={at(base)} className="cl" />
            {limit === null ? null : <circle cx={x} cy={y} r={outer} className="dots" />}
            {both ? <ellipse cx={x} cy={y} rx={radius(across)} ry={radius(along)} className="w" /> : null}
            <path
              d={`M${at(x - outer - 5)} ${y}h${at(2 * outer + 10)}M${x} ${at(y - outer - 4)}V${at(y + outer + 4)}`}
              className="cl"
            />
            <text x={at(x + outer + 9)} y={y - 4} className="tn b">
              {levelName(index)}
            </text>
            <text x={at(x + outer + 9)} y={y + 12} className="tn">
              {both ? letter(Math.abs(across - along)) : ''}
            </text>
          </g>
        );
      })}
      <text x={x} y={top + depth + 30} textAnchor="middle" className="tx2">
        {words.form(magnification)}
      </text>
    </g>
  );
}
