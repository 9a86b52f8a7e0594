import { at } from './coordinates.ts';
import type { WearFrame } from './wear-frame.ts';

type Props = {
  readonly frame: WearFrame;
  readonly limit: number;
  readonly reach: { readonly earliest: number; readonly latest: number };
  readonly text: string;
};

/** The hours left as a dimension between the two crossings. */
export function WearReach({ frame, limit, reach, text }: Props) {
  const [a, b] = [at(frame.x(reach.earliest)), at(frame.x(reach.latest))];
  const line = frame.bottom - 22;
  const limitY = at(frame.y(limit));
  const outside = b - a < 24;
  const beside = b - a < text.length * 7 + 12;
  return (
    <g data-layer="reach">
      <path d={`M${a} ${limitY}V${line + 5}M${b} ${limitY}V${line + 5}M${a} ${line}H${b}`} className="n" />
      <path
        d={outside ? `M${a} ${line}l-8-3v6zM${b} ${line}l8-3v6z` : `M${a} ${line}l8-3v6zM${b} ${line}l-8-3v6z`}
        className="f-ink"
      />
      <text
        x={beside ? a - (outside ? 13 : 8) : at((a + b) / 2)}
        y={beside ? line + 4 : line - 6}
        textAnchor={beside ? 'end' : 'middle'}
        className="tn b bgp"
      >
        {text}
      </text>
    </g>
  );
}
