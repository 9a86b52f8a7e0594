import type { EngineLine } from '#contracts/engines.ts';
import { read } from '../../app/api.ts';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import type { TakeInEntry } from './take-in-entry.ts';

/** At the counter an engine that is not in the shop is about to be taken in: it and its owner are chosen. */
export function useTakeInScan(change: (part: Partial<TakeInEntry>) => void): void {
  const { done } = useWords().scan;
  useScan((scanned) => {
    if (scanned.kind !== 'engine' || scanned.jobId !== null) return undefined;
    void read<{ items: EngineLine[] }>(`/engines?search=${encodeURIComponent(scanned.serial)}`).then(({ items }) => {
      const known = items.find(({ id }) => id === scanned.id);
      if (known === undefined) return;
      const { serial, owner } = known;
      change({ known, serial, ownerId: owner.id, ownerName: owner.name, ownerNote: '' });
    });
    return {
      did: done.engineChosen,
      undo: () => change({ known: null, serial: '', ownerId: null, ownerName: '' }),
    };
  });
}
