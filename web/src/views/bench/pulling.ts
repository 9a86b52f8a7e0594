import type { AssemblyPage, FastenerSetStanding, LogPull } from '#contracts/assembly.ts';
import type { Quantity } from '#contracts/wire.ts';
import { type TorqueWrench, type WrenchFit, wrenchFit, wrenchFor } from '#domain/fasteners/wrench.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { Entry } from '../../app/outbox.ts';

export interface SetNow {
  readonly stages: FastenerSetStanding['stages'];
  /** The stage and the position that come next; undefined: complete. */
  readonly next: { readonly stage: FastenerSetStanding['stages'][number]; readonly fastener: number } | undefined;
  readonly afterNext: number | undefined;
  readonly waiting: readonly LogPull[];
}

const pullOf = (entry: Entry): LogPull => entry.body as LogPull;

/** A set as it stands with the pulls that this terminal still keeps, and without those it has taken back. */
export function setNow(set: FastenerSetStanding, entries: readonly Entry[]): SetNow {
  const waiting = entries
    .filter((entry) => entry.kind === 'pull' && entry.refusal === null && !entry.undone)
    .map(pullOf)
    .filter((pull) => pull.set === set.code);
  const struck = new Set(entries.filter(({ kind }) => kind === 'strike').map(({ path }) => path));
  const gone = set.pulls.filter(({ id }) => struck.has(`/torque-pulls/${id}/strike`));
  const stages = set.stages.map((stage) => {
    const done = set.order.filter(
      (fastener) =>
        (stage.done.includes(fastener) &&
          !gone.some((pull) => pull.stage === stage.ordinal && pull.fastener === fastener)) ||
        waiting.some((pull) => pull.stage === stage.ordinal && pull.fastener === fastener),
    );
    return { ...stage, done, missing: set.order.filter((fastener) => !done.includes(fastener)) };
  });
  const stage = stages.find(({ missing }) => missing.length > 0);
  const [fastener, afterNext] = stage?.missing ?? [];
  return {
    stages,
    next: stage === undefined || fastener === undefined ? undefined : { stage, fastener },
    afterNext,
    waiting,
  };
}

export type Tap =
  | { readonly ok: true }
  | { readonly ok: false; readonly reason: 'complete' }
  | { readonly ok: false; readonly reason: 'already'; readonly stage: number }
  | { readonly ok: false; readonly reason: 'first'; readonly next: number };

/** Whether a bolt may be pulled now: a missed or a repeated position is caught before it is sent. */
export function tapOn(now: SetNow, fastener: number): Tap {
  if (now.next === undefined) return { ok: false, reason: 'complete' };
  const { stage, fastener: next } = now.next;
  if (fastener === next) return { ok: true };
  return stage.done.includes(fastener)
    ? { ok: false, reason: 'already', stage: stage.ordinal }
    : { ok: false, reason: 'first', next };
}

const torque = ({ value, unit }: Quantity) => {
  const parsed = parseQuantity(value, unit, 'torque');
  return parsed.ok ? parsed.value : null;
};

type ShopWrench = AssemblyPage['wrenches'][number];

function wrenchesOf(wrenches: readonly ShopWrench[]): readonly TorqueWrench[] {
  return wrenches.flatMap(({ code, largest, calibratedUntil, pulls, pullsAllowed }) => {
    const most = torque(largest);
    return most === null ? [] : [{ code, largest: most, calibratedUntil, pullsSinceCalibration: pulls, pullsAllowed }];
  });
}

export interface WrenchOffered {
  readonly code: string;
  readonly name: string;
  readonly fit: WrenchFit;
}

/** Every wrench with whether it may be set so, and the one to take. Angle stages need none. */
export function wrenchesFor(
  wrenches: readonly ShopWrench[],
  figure: Quantity,
  day: string,
): { readonly offered: readonly WrenchOffered[]; readonly take: string | undefined } | null {
  const setting = torque(figure);
  if (setting === null) return null;
  const known = wrenchesOf(wrenches);
  return {
    offered: known.map((wrench) => ({
      code: wrench.code,
      name: wrenches.find(({ code }) => code === wrench.code)?.name ?? wrench.code,
      fit: wrenchFit(wrench, setting, day),
    })),
    take: wrenchFor(known, setting, day)?.code,
  };
}
