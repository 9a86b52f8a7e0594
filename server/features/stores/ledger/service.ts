import type { PartName } from '#contracts/parts.ts';
import { type DemandPlace, moveDemand } from '#domain/stock/demand.ts';
import { chooseLots, type LotShare } from '#domain/stock/lots.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findHeld,
  findJobOfLine,
  type HeldPieces,
  type LineToServe,
  type LockedLot,
  lockLines,
  lockLotsOfLine,
  type Standing,
} from './queries.ts';

export interface OpenLine {
  readonly job: { readonly id: string; readonly engineId: string; readonly number: number };
  readonly line: LineToServe;
  readonly lots: readonly LockedLot[];
  readonly held: readonly HeldPieces[];
}

/** A line of a job that is still here, with everything that can change it locked: engine, job, its lots, itself. */
export async function openLine(act: Act, lineId: string, chosenLotId?: string): Promise<OpenLine> {
  const job = await openJob(act, found(await findJobOfLine(act.sql, lineId), 'such demand line'));
  const lots = await lockLotsOfLine(act.sql, lineId, chosenLotId);
  const [line] = await lockLines(act.sql, [lineId]);
  return { job, line: found(line, 'such demand line'), lots, held: await findHeld(act.sql, lineId) };
}

/** Which of these lots' pieces to take, the oldest lot first. */
export function sharesOf(
  pieces: readonly HeldPieces[],
  lots: readonly LockedLot[],
  quantity: number,
): readonly LotShare[] {
  const offered = lots.map((lot) => ({
    ...lot,
    partId: '',
    onHand: pieces.find(({ lotId }) => lotId === lot.id)?.quantity ?? 0,
    reserved: 0,
    thickness: null,
  }));
  return chooseLots(offered, { partId: '', count: quantity, thickness: null }).shares;
}

export const partOf = ({ partId, number, name }: LineToServe): PartName => ({ id: partId, number, name });

/** Moves pieces of a line from one place to another, or refuses with what is there. */
export function moveOnLine(line: LineToServe, from: DemandPlace, move: { to: DemandPlace; count: number }): Standing {
  const step = moveDemand(line, from, move);
  if (step.ok) return { id: line.id, ...placesOf(step.line) };
  switch (step.reason.kind) {
    case 'not-so-many':
      throw new ProblemError(
        'stock-short',
        `Of ${line.name} (${line.number}) only ${step.reason.there} of this job's pieces are ${placeWords[from]}, not ${step.reason.count}.`,
        { there: step.reason.there, asked: step.reason.count },
      );
    case 'count-not-whole':
    case 'no-such-move':
      throw new Error(`a line of ${line.number} cannot move ${move.count} from ${from} to ${move.to}`);
  }
}

/**
 * Pieces that a line had reserved are short of it again, and waited for as long as they were held: firmly, where one of
 * them was firm or others of the line are waited for firmly; else until the later day.
 */
export function shortAgain(line: LineToServe, given: readonly Omit<HeldPieces, 'lotId'>[]): Standing {
  const count = given.reduce((sum, { quantity }) => sum + quantity, 0);
  const isAsked = line.short > 0 || (line.askedWhole && line.notAsked > 0);
  const ends = [...(isAsked ? [line.askedUntil] : []), ...given.map(({ until }) => until)];
  const days = ends.flatMap((until) => (until === null ? [] : [until]));
  const last = days.toSorted((one, other) => Date.parse(one) - Date.parse(other)).at(-1) ?? null;
  return {
    ...moveOnLine(line, 'reserved', { to: 'short', count }),
    asking: { whole: line.askedWhole, until: ends.includes(null) ? null : last },
  };
}

const placeWords: Readonly<Record<DemandPlace, string>> = {
  reserved: 'reserved',
  short: 'short',
  issued: 'issued',
  cancelled: 'cancelled',
  notAsked: 'not asked for yet',
};

const placesOf = ({ reserved, short, issued, cancelled, notAsked }: Omit<Standing, 'id'>) => ({
  reserved,
  short,
  issued,
  cancelled,
  notAsked,
});
