import type { Family, OpeningNow } from '#contracts/floor.ts';
import { Section, type SectionProps } from '../../drawings/section/section.tsx';

type Props = Omit<SectionProps, 'stroke' | 'cooling' | 'depth' | 'covered' | 'bore' | 'strokeLength'> & {
  readonly family: Family;
  readonly opening: Pick<OpeningNow, 'depth' | 'covered'> | null;
};

const millimetres = ({ value, unit }: Family['bore']): number | undefined =>
  unit === 'mm' && Number.isFinite(Number(value)) ? Number(value) : undefined;

/** The section of one engine as it stands. */
export function EngineSection({ family, opening, ...drawing }: Props) {
  return (
    <Section
      stroke={family.cycle}
      cooling={family.cooling}
      depth={opening?.depth ?? 'closed'}
      covered={opening?.covered ?? true}
      bore={millimetres(family.bore)}
      strokeLength={millimetres(family.stroke)}
      {...drawing}
    />
  );
}
