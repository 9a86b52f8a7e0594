import type { FastenerSetStanding, LogPull } from '#contracts/assembly.ts';
import type { Quantity } from '#contracts/wire.ts';
import { keepEntry, takeBack, useEntries } from '../../app/outbox.ts';
import { STRIKE_REASON, sendNow } from '../../app/outbox-sending.ts';
import { useSession } from '../../app/session.tsx';

interface LastPull {
  readonly atBolt: Quantity | null;
  readonly fastener: number;
  readonly stage: number;
  readonly value: Quantity;
  readonly waiting: boolean;
}

export interface Pulling {
  readonly pull: (pull: LogPull) => void;
  /** The pull that was logged last, the waiting ones included. */
  readonly last: LastPull | undefined;
  /** `boltTurned`: it was turned indeed, so a bolt past yield comes out; else it was keyed by mistake. */
  readonly takeBackLast: (boltTurned?: boolean) => void;
}

/** Pulls are entries like readings: kept here, sent once, taken back by a strike. */
export function usePulling(jobId: string, set: FastenerSetStanding): Pulling {
  const { person } = useSession();
  const entries = useEntries().filter((entry) => entry.jobId === jobId);
  const own = { personId: person.id, person: person.name, jobId };
  const waiting = entries.filter(
    (entry) =>
      entry.kind === 'pull' &&
      entry.refusal === null &&
      !entry.undone &&
      (entry.body as LogPull).set === set.code &&
      // Between the server's answer and the drop of the entry a pull is there twice for a moment.
      !set.pulls.some(
        (pull) => pull.fastener === (entry.body as LogPull).fastener && pull.stage === (entry.body as LogPull).stage,
      ),
  );
  const struck = new Set(entries.filter(({ kind }) => kind === 'strike').map(({ path }) => path));
  const strikeOf = (id: string) => `/torque-pulls/${id}/strike`;
  const kept = set.pulls
    .filter(({ id }) => !struck.has(strikeOf(id)))
    .toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0))
    .at(-1);
  const newest = waiting.at(-1);
  const body = newest === undefined ? undefined : (newest.body as LogPull);
  return {
    pull: (pull) => {
      keepEntry({ kind: 'pull', ...own, path: `/jobs/${jobId}/torque-pulls`, body: pull });
      sendNow();
    },
    last:
      body !== undefined
        ? { ...body, atBolt: null, waiting: true }
        : kept === undefined
          ? undefined
          : { ...kept, waiting: false },
    takeBackLast: (boltTurned = false) => {
      if (newest !== undefined) takeBack(newest.key);
      else if (kept !== undefined) {
        keepEntry({ kind: 'strike', ...own, path: strikeOf(kept.id), body: { reason: STRIKE_REASON, boltTurned } });
      }
      sendNow();
    },
  };
}
