import type { Scanned } from '#contracts/labels.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import { type ScanDone, useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { goTo, type Scan } from './scan-field.tsx';

/** The button that picks a line gets the focus: Enter, or a tap, and it is picked. */
const focusOn = (lineId: string) => {
  const row = document.getElementById(`line-${lineId}`);
  row?.scrollIntoView({ block: 'center' });
  row?.querySelector<HTMLElement>('.acts .btn.main')?.focus({ preventScroll: true });
};

/** In stores a part leads to its line that can be picked, else to all that is known of it; a bin to what lies in it; an engine or a tray to its job. */
export function useStoresScan(board: StoresBoard | undefined, heed: (scan: Scan) => void): void {
  const { done } = useWords().scan;
  useScan((scanned): ScanDone | undefined => {
    switch (scanned.kind) {
      case 'part': {
        heed({ text: scanned.part.number, found: scanned });
        const toPick = linesOf(board, scanned);
        if (toPick.length === 1 && toPick[0] !== undefined) {
          const { line, job } = toPick[0];
          setTimeout(() => focusOn(line.id));
          return { did: done.pickIt(line.reserved, job.number) };
        }
        return { did: scanned.supersededBy === null ? done.partShown : done.partReplaced(scanned.supersededBy.number) };
      }
      case 'bin':
        heed({ text: scanned.code, found: scanned });
        return { did: done.binShown };
      case 'tray':
      case 'rack':
      case 'engine': {
        const jobId = scanned.kind === 'engine' ? scanned.jobId : scanned.job.id;
        if (!board?.jobs.some(({ job }) => job.id === jobId)) return undefined;
        goTo(`job-${jobId}`);
        return { did: done.jobShown };
      }
    }
  });
}

const linesOf = (board: StoresBoard | undefined, { part }: Extract<Scanned, { kind: 'part' }>) =>
  (board?.jobs ?? []).flatMap(({ job, lines }) =>
    lines.filter((line) => line.part.id === part.id && line.state === 'pick now').map((line) => ({ job, line })),
  );
