import type { Part } from '#contracts/parts.ts';
import { inPacks } from '#domain/stock/packs.ts';
import { Stepper } from '../../kit/stepper.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import './packs.css';

/** So many ones of a part: "3 × 10 = 30" where they come by the pack, with what one of it is unless it is a piece. */
export function usePackText() {
  const { packs: words, partForms } = useWords();
  const { number } = useFormat();
  return (count: number, packSize: number, unit: Part['unit'] = 'piece'): string => {
    const ones = unit === 'piece' ? number(count) : `${number(count)} ${partForms.units[unit]}`;
    if (packSize === 1) return ones;
    const { packs, loose } = inPacks(count, packSize);
    if (loose === 0) return words.whole(number(packs), number(packSize), ones);
    if (packs === 0) return words.opened(ones, number(packSize));
    return words.withLoose(number(packs), number(packSize), number(loose), ones);
  };
}

/** How somebody keyed so many, where it comes by the pack. */
export function useKeyedText() {
  const { packs: words } = useWords();
  const { number } = useFormat();
  return (keyed: { readonly packs: number; readonly loose: number } | null, packSize: number): string => {
    if (keyed === null || packSize === 1) return '';
    if (keyed.packs === 0) return words.keyedLoose;
    const whole = words.counted(keyed.packs, number(packSize));
    return keyed.loose === 0 ? words.keyedPacks(whole) : words.keyedBoth(whole, number(keyed.loose));
  };
}

interface PackSteppersProps {
  readonly label: string;
  /** All of them, in packs and loose. */
  readonly ones: number;
  readonly packSize: number;
  readonly min?: number;
  readonly onChange: (ones: number) => void;
}

const most = 100_000;

/** How many, keyed in packs and in loose ones where it comes by the pack; an open or a short pack is said loose. */
export function PackSteppers({ label, ones, packSize, min = 0, onChange }: PackSteppersProps) {
  const { packs: words } = useWords();
  const { number } = useFormat();
  const text = usePackText();
  if (packSize === 1) return <Stepper label={label} value={ones} min={min} max={most} onChange={onChange} />;
  const { packs, loose } = inPacks(ones, packSize);
  const put = (count: number) => onChange(Math.min(most, Math.max(min, count)));
  return (
    <div className="pack-steppers">
      <div>
        <span className="note">{words.packs(number(packSize))}</span>
        <Stepper
          label={words.packsOf(label, number(packSize))}
          value={packs}
          max={Math.floor(most / packSize)}
          onChange={(count) => put(count * packSize + loose)}
        />
      </div>
      <div>
        <span className="note">{words.loose}</span>
        <Stepper
          label={words.looseOf(label)}
          value={loose}
          max={most}
          onChange={(count) => put(packs * packSize + count)}
        />
      </div>
      <output className="num">{text(ones, packSize)}</output>
    </div>
  );
}
