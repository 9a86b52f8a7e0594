import type { LooseFastener } from '#contracts/custody.ts';
import { useWords } from '../../words/words.tsx';

/** Fasteners not pulled to their last stage, by the torque log: which set, which stage, which positions. */
export function LooseFasteners({ fasteners }: { readonly fasteners: readonly LooseFastener[] }) {
  const words = useWords().handover;
  if (fasteners.length === 0) return null;
  return (
    <ul className="open-obligations" aria-label={words.byTheLog}>
      {fasteners.map(({ set, name, stage, positions }) => (
        <li key={`${set} ${stage}`}>{words.notPulled(name, stage, positions)}</li>
      ))}
    </ul>
  );
}
