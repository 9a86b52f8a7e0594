import { useId, useMemo } from 'react';
import { at } from '../coordinates.ts';
import { fillWith, Hatch } from '../hatch.tsx';

/** Fill of each cut part. Neighbours never share angle and pitch. */
export type SectionFills = {
  readonly cover: string;
  readonly head: string;
  readonly cylinder: string;
  readonly piston: string;
  readonly casing: string;
  readonly shaft: string;
  readonly guide: string;
  readonly cloth: string;
};

const kinds = [
  ['cover', 45, 6],
  ['head', -45, 5.5],
  ['cylinder', 45, 5.5],
  ['piston', -45, 3.6],
  ['casing', -45, 7.5],
  ['shaft', 45, 3],
  ['guide', 20, 3],
] as const;

export function useSectionFills(): { readonly base: string; readonly fills: SectionFills } {
  const base = useId();
  return useMemo(() => {
    const fill = (part: string) => fillWith(`${base}${part}`);
    return {
      base,
      fills: {
        cover: fill('cover'),
        head: fill('head'),
        cylinder: fill('cylinder'),
        piston: fill('piston'),
        casing: fill('casing'),
        shaft: fill('shaft'),
        guide: fill('guide'),
        cloth: fill('cloth'),
      },
    };
  }, [base]);
}

/** Pitch is held on the screen, so a small section isn't a grey smear: `scale` is mm per px. */
export function SectionHatches({
  base,
  scale,
  large,
}: {
  readonly base: string;
  readonly scale: number;
  readonly large: boolean;
}) {
  const closer = large ? 1 : 0.66;
  const weave = 5 * scale * (large ? 1 : 0.75);
  return (
    <defs>
      {kinds.map(([part, angle, pitch]) => (
        <Hatch
          key={part}
          id={`${base}${part}`}
          angle={angle}
          pitch={pitch * closer * scale}
          line={(large ? 0.85 : 0.6) * scale}
          opaque
        />
      ))}
      <pattern
        id={`${base}cloth`}
        width={at(weave * 2)}
        height={at(weave * 2)}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(-8)"
      >
        <rect width={at(weave * 2)} height={at(weave * 2)} className="f-rag" />
        <path
          className="hl"
          strokeWidth={at(scale * (large ? 0.9 : 0.7))}
          d={`M0 ${at(weave * 0.5)}h${at(weave * 0.9)}M${at(weave)} ${at(weave * 1.5)}h${at(weave * 0.9)}M${at(weave * 1.5)} 0v${at(weave * 0.9)}M${at(weave * 0.5)} ${at(weave)}v${at(weave * 0.9)}`}
        />
      </pattern>
    </defs>
  );
}
