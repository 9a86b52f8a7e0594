import type { WrenchFault } from '#domain/fasteners/wrench.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { Choice } from '../../kit/choice.tsx';
import { type Format, useFormat } from '../../words/format.ts';
import { useWords, type Words } from '../../words/words.tsx';
import type { WrenchOffered } from './pulling.ts';

function faultText(fault: WrenchFault, format: Format, { assemble: { fasteners: words } }: Words): string {
  const newtonMetres = (value: number) => `${format.decimal(formatQuantity(value, 'N.m', 0))} N·m`;
  switch (fault.kind) {
    case 'below-its-range':
      return words.below(newtonMetres(fault.smallest));
    case 'above-its-range':
      return words.above(newtonMetres(fault.largest));
    case 'not-calibrated':
      return words.notCalibrated;
    case 'calibration-past':
      return words.ranOut(format.day(fault.until));
    case 'too-many-pulls':
      return words.tooMany;
  }
}

interface WrenchChoiceProps {
  readonly offered: readonly WrenchOffered[];
  readonly value: string | null;
  readonly onChange: (code: string) => void;
}

/** The shop's torque wrenches, each with why it fits the stage's figure or why not. */
export function WrenchChoice({ offered, value, onChange }: WrenchChoiceProps) {
  const words = useWords();
  const format = useFormat();
  const { assemble } = words;
  if (!offered.some(({ fit }) => fit.ok)) return <p className="hot">{assemble.fasteners.noWrench}</p>;
  return (
    <Choice
      label={assemble.fasteners.wrench}
      value={value}
      onChange={onChange}
      options={offered.map(({ code, name, fit }) => ({
        value: code,
        label: code,
        note: [
          name,
          fit.ok ? assemble.fasteners.fits : fit.faults.map((fault) => faultText(fault, format, words)).join(', '),
        ].join(', '),
        disabled: !fit.ok,
      }))}
    />
  );
}
