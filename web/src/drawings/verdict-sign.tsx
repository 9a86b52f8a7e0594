import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import type { VerdictKind } from './verdict-kind.ts';

function Reading({ verdict }: { readonly verdict: VerdictKind }) {
  switch (verdict) {
    case 'within standard':
      return <circle className="f-ink" cx={9} cy={8} r={3} />;
    case 'within service limit':
      return <circle className="f-ink" cx={19} cy={8} r={3} />;
    case 'past the limit':
      return <path className="mk" d="M26 3.5L34 8L26 12.5Z" />;
    case 'undecided':
      return (
        <g className="hot">
          <path className="w" d="M17 8H30M17 4.5V11.5M30 4.5V11.5" />
          <circle cx={23.5} cy={8} r={3.2} className="w f-paper" />
        </g>
      );
    case 'not measured':
      return null;
  }
}

export type VerdictSignProps = { readonly verdict: VerdictKind; readonly width?: number };

/** Two bounds of the standard, the limit as a heavy line, the reading by its place: the shape alone tells. */
export function VerdictSign({ verdict, width = 44 }: VerdictSignProps) {
  return (
    <Drawing className="vg" viewBox={[0, 0, 36, 16]} width={width} height={at((width * 16) / 36)}>
      <path className="n" d="M3 3V13M15 3V13M3 8H15" />
      <path className="w" d="M23 1V15" />
      <Reading verdict={verdict} />
    </Drawing>
  );
}
