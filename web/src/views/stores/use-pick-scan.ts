import { type ScanDone, useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { type Stop, stopId } from './pick-stop.ts';

interface Walking {
  readonly stops: readonly Stop[];
  readonly current: Stop | undefined;
  readonly isPicked: (stop: Stop) => boolean;
  readonly take: (stop: Stop) => void;
  readonly takeOut: (stop: Stop) => void;
  readonly goTo: (id: string) => void;
  readonly standAt: (binId: string | null) => void;
  readonly chooseJob: (jobId: string) => void;
}

/** On the walk a bin says where one stands, a part is picked, and an engine or a tray chooses its job. */
export function usePickScan({ stops, current, isPicked, take, takeOut, goTo, standAt, chooseJob }: Walking): void {
  const { scanned: words } = useWords().storesDesks.walk;
  const partScanned = (partId: string): ScanDone => {
    const own = stops.filter(({ part }) => part.id === partId);
    const open = own.filter((stop) => !isPicked(stop));
    if (own.length === 0) return { did: words.notWanted, amiss: true };
    const here = open.find(({ bin }) => bin.id === current?.bin.id);
    if (here !== undefined) {
      take(here);
      return { did: words.partPicked(here.quantity), undo: () => takeOut(here) };
    }
    const [next] = open;
    if (next === undefined) return { did: words.before };
    goTo(stopId(next));
    return { did: words.elsewhere };
  };
  const binScanned = (binId: string): ScanDone => {
    const own = stops.filter(({ bin }) => bin.id === binId);
    const next = own.find((stop) => !isPicked(stop)) ?? own[0];
    if (next === undefined) return { did: words.nothingThere, amiss: true };
    standAt(binId);
    const wasHere = current?.bin.id === binId;
    if (!wasHere) goTo(stopId(next));
    return { did: wasHere ? words.at : words.elsewhere };
  };
  useScan((scanned) => {
    switch (scanned.kind) {
      case 'part':
        return partScanned(scanned.part.id);
      case 'bin':
        return binScanned(scanned.id);
      case 'tray':
      case 'rack':
      case 'engine': {
        const jobId = scanned.kind === 'engine' ? scanned.jobId : scanned.job.id;
        if (jobId === null || !stops.some(({ job }) => job.id === jobId)) return undefined;
        chooseJob(jobId);
        return { did: words.jobOnly, undo: () => chooseJob('') };
      }
    }
  });
}
