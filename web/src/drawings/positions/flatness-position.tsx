import { boxText, type PositionFacts, type PositionLettering } from './position-facts.ts';
import { ValueBox } from './value-box.tsx';

type Props = { readonly facts: PositionFacts & { readonly kind: 'flatness' }; readonly lettering: PositionLettering };

/** Two long edges, two ends, two diagonals, in the order they're gone round. */
const straightedges = [
  { d: 'M44 124H332', x: 188, y: 124 },
  { d: 'M44 476H332', x: 188, y: 476 },
  { d: 'M68 100V500', x: 68, y: 300 },
  { d: 'M308 100V500', x: 308, y: 300 },
  { d: 'M48 104L328 496', x: 118, y: 202 },
  { d: 'M328 104L48 496', x: 258, y: 202 },
] as const;

/** The face from above with the six ways the straightedge lies. */
export function FlatnessPosition({ facts, lettering }: Props) {
  return (
    <g>
      <path d="M64 80H312Q336 80 336 104V496Q336 520 312 520H64Q40 520 40 496V104Q40 80 64 80Z" className="w f-paper" />
      <circle cx={188} cy={300} r={92} className="n f-paper2" />
      {(
        [
          [96, 150],
          [280, 150],
          [96, 450],
          [280, 450],
        ] as const
      ).map(([x, y]) => (
        <circle key={`${x},${y}`} cx={x} cy={y} r={13} className="n" />
      ))}
      {straightedges.map(({ d }, line) => (
        <path key={d} d={d} className={facts.active === line ? 'hotline' : 'hidw'} data-line={line + 1} />
      ))}
      {straightedges.map(({ d, x, y }, line) => {
        const active = facts.active === line;
        return (
          <g key={d}>
            <circle cx={x} cy={y} r={14} className={active ? 'hotball' : 'n f-paper'} />
            <text x={x} y={y + 5} textAnchor="middle" className={active ? 'tn b onhot' : 'tn b'}>
              {line + 1}
            </text>
            <ValueBox
              x={368}
              y={88 + line * 72}
              text={boxText(facts.lines[line] ?? null, active, lettering)}
              active={active}
              note={String(line + 1)}
            />
          </g>
        );
      })}
    </g>
  );
}
