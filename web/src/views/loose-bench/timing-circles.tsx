import type { Given } from '#domain/build/calculations/reading.ts';
import type { CamFigures, ValveTiming } from '#domain/build/cams.ts';
import { TimingCircle } from '../../drawings/timing-circle.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

const degree = 1_000_000;

interface CamProps {
  readonly timing: ValveTiming;
  readonly found: CamFigures;
}

/** The valve timing as a circle: intake inside, exhaust outside, overlap hatched about top dead centre. */
export function CamCircle({ timing, found }: CamProps) {
  const { drawings: words } = useWords().looseBench;
  const format = useFormat();
  const said = (angle: number) => format.decimal(String(Math.round((angle / degree) * 10) / 10));
  const { intakeOpensBeforeTop, intakeClosesAfterBottom, exhaustOpensBeforeBottom, exhaustClosesAfterTop } = timing;
  const exhaust = {
    name: words.exhaust,
    from: 180 - exhaustOpensBeforeBottom / degree,
    to: 360 + exhaustClosesAfterTop / degree,
    centre: 360 - found.exhaustCentreBeforeTop / degree,
    ends: [`${said(exhaustOpensBeforeBottom)}°`, `${said(exhaustClosesAfterTop)}°`],
  } as const;
  const intake = {
    name: words.intake,
    from: -intakeOpensBeforeTop / degree,
    to: 180 + intakeClosesAfterBottom / degree,
    centre: found.intakeCentreAfterTop / degree,
    ends: [`${said(intakeOpensBeforeTop)}°`, `${said(intakeClosesAfterBottom)}°`],
  } as const;
  const overlap = found.overlap / degree;
  return (
    <TimingCircle
      label={words.cams(
        `${words.intake} ${intake.ends.join(' / ')}, ${words.exhaust} ${exhaust.ends.join(' / ')}, ${words.overlap(said(found.overlap))}`,
      )}
      arcs={[exhaust, intake]}
      hatched={
        overlap > 0
          ? [{ from: intake.from, to: exhaustClosesAfterTop / degree, name: words.overlap(said(found.overlap)) }]
          : []
      }
      top={words.top}
      bottom={words.bottom}
    />
  );
}

interface PortProps {
  readonly given: Given;
  readonly figures: Readonly<Record<string, { readonly value: string; readonly unit: string } | null>>;
}

/** A two-stroke's ports as a circle: symmetrical about bottom dead centre, blowdown hatched on both sides. */
export function PortCircle({ given, figures }: PortProps) {
  const { drawings: words } = useWords().looseBench;
  const format = useFormat();
  const durationOf = (code: 'exhaustOpen' | 'transferOpen') => {
    const told = figures[code] ?? given[code];
    return typeof told === 'object' && 'value' in told ? Number(told.value.replace(',', '.')) : undefined;
  };
  const [exhaust, transfer] = [durationOf('exhaustOpen'), durationOf('transferOpen')];
  if (exhaust === undefined) return null;
  const arc = (name: string, open: number, told: { readonly value: string } | null | undefined) => {
    const opens = `${told ? format.decimal(told.value) : format.number(180 - open / 2, 1)}°`;
    return { name, from: 180 - open / 2, to: 180 + open / 2, ends: [opens, opens] as const };
  };
  const blowdown = transfer === undefined ? 0 : (exhaust - transfer) / 2;
  const said = words.blowdown(format.number(blowdown, 1));
  const opens = 180 - exhaust / 2;
  const arcs = [
    arc(words.exhaust, exhaust, figures.exhaustOpensAt),
    ...(transfer === undefined ? [] : [arc(words.transfer, transfer, figures.transferOpensAt)]),
  ];
  return (
    <TimingCircle
      label={words.ports(
        [
          words.arc(words.exhaust, format.number(exhaust, 1)),
          ...(transfer === undefined ? [] : [words.arc(words.transfer, format.number(transfer, 1)), said]),
        ].join(', '),
      )}
      arcs={arcs}
      hatched={blowdown > 0 ? [{ from: opens, to: opens + blowdown, name: said }] : []}
      top={words.top}
      bottom={words.bottom}
    />
  );
}
