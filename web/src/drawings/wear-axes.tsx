import { ticksBetween } from './chart-ticks.ts';
import { at } from './coordinates.ts';
import type { WearFrame } from './wear-frame.ts';
import type { DrawingWords } from './words.ts';

type Props = {
  readonly frame: WearFrame;
  readonly limit: number;
  readonly letter: (value: number) => string;
  readonly words: DrawingWords['wear'];
};

export function WearAxes({ frame, limit, letter, words }: Props) {
  const { x, y, left, right, top, bottom, hoursEnd, valueRange } = frame;
  const values = ticksBetween(valueRange[0], valueRange[1], (bottom - top) / 30);
  const hours = ticksBetween(0, hoursEnd, (right - left) / 72);
  return (
    <g data-layer="axes">
      <path d={`M${left} ${top}V${bottom}H${right}`} className="n" />
      <path d={`M${left} ${at(y(limit))}H${right}`} className="lim" data-mark="limit" />
      <text x={left + 6} y={at(y(limit) - 7)} className="tn b bgp">
        {words.limit(letter(limit))}
      </text>
      {values.map((value) => (
        <g key={value}>
          <path d={`M${left - 5} ${at(y(value))}H${left}`} className="n" />
          <text x={left - 9} y={at(y(value) + 4)} textAnchor="end" className="tn">
            {letter(value)}
          </text>
        </g>
      ))}
      {hours.map((hour) => (
        <g key={hour}>
          <path d={`M${at(x(hour))} ${bottom}v5`} className="n" />
          <text x={at(x(hour))} y={bottom + 18} textAnchor="middle" className="tn">
            {Math.round(hour)}
          </text>
        </g>
      ))}
      <text x={right} y={bottom + 38} textAnchor="end" className="tx2">
        {words.hours}
      </text>
    </g>
  );
}
