import { compactBox, compactShapes } from '#domain/section/compact-shapes.ts';
import { at } from '../coordinates.ts';
import { Drawing } from '../drawing.tsx';
import { CompactOpening, CompactPhantoms } from './compact-opening.tsx';
import type { SectionFacts } from './section-facts.ts';

/** Finer lines are drawn only where there are pixels for them. */
const FINE_FROM = 48;

/** The section from 24 to 99 px: the same outlines that are printed on labels. */
export function CompactSection({ facts, label }: { readonly facts: SectionFacts; readonly label: string | undefined }) {
  const fine = facts.size >= FINE_FROM;
  return (
    <Drawing
      className="sec c"
      label={label}
      viewBox={compactBox}
      width={at((facts.size * 60) / 64)}
      height={facts.size}
    >
      {compactShapes({ ...facts, fine }).map(({ layer, shapes }) => (
        <g key={layer} data-layer={layer}>
          {shapes.map((shape) =>
            'd' in shape ? (
              <path key={shape.d} d={shape.d} className={`f-${shape.paint}`} />
            ) : (
              <circle
                key={shape.circle.join(' ')}
                cx={shape.circle[0]}
                cy={shape.circle[1]}
                r={shape.circle[2]}
                className={`f-${shape.paint}`}
              />
            ),
          )}
        </g>
      ))}
      {fine && facts.phantom ? <CompactPhantoms facts={facts} /> : null}
      <CompactOpening facts={facts} />
    </Drawing>
  );
}
