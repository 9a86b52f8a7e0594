import type { TorqueNote } from '#domain/spec-sheet/torque-notes.ts';
import { useWords } from '../../words/words.tsx';

/** Torques that the bolt would hardly stand, each with what it may have been. */
export function TorqueNotes({ notes }: { readonly notes: readonly TorqueNote[] }) {
  const { specs: words } = useWords();
  return notes.map(({ stage, kind, shareOfProof, swap }) => (
    <p key={stage} className={kind === 'warn' ? 'hot' : 'caution'}>
      {words.pastProof(stage, Math.round(shareOfProof * 100), kind)}
      {swap === null ? '' : ` ${words.swapped(swap)}`}
    </p>
  ));
}
