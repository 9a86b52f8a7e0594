import type { Rack, SwapPlaces } from '#contracts/searches.ts';
import type { RackPlace, ValvePlace } from '#domain/tally/rack.ts';
import { rackOf } from '#domain/tally/rack.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findRackRows, findValvesOfSheet, insertPlaces, insertPositionMove, type RackRow } from './rack-queries.ts';
import { lockOpenOpening } from './service.ts';

/** Lays out the places of a line that has to be kept in order; nothing for any other. */
export async function layOut(
  act: Act,
  of: {
    readonly pieceId: string;
    readonly revisionId: string;
    readonly matchedSet: string | null;
    readonly expected: number;
  },
): Promise<void> {
  const valves: readonly ValvePlace[] = of.matchedSet === null ? [] : await findValvesOfSheet(act.sql, of.revisionId);
  const places: readonly RackPlace[] | null = rackOf(of, valves);
  if (places !== null) await insertPlaces(act.sql, of.pieceId, places);
}

function racksOf(rows: readonly RackRow[]): Rack[] {
  const ids = [...new Set(rows.map(({ pieceId }) => pieceId))];
  return ids.map((pieceId) => {
    const places = rows.filter((row) => row.pieceId === pieceId);
    return {
      pieceId,
      name: places[0]?.piece ?? '',
      places: places.map(({ code, name, side }) => {
        const lies = places.find(({ atCode }) => atCode === code);
        const moved = lies !== undefined && lies.code !== code && lies.movedAt !== null ? lies : undefined;
        return {
          code,
          name,
          side,
          from: lies?.code ?? code,
          fromName: lies?.name ?? name,
          swapped:
            moved === undefined
              ? null
              : { reason: moved.reason, by: { id: moved.byId ?? '', name: moved.by ?? '' }, at: moved.movedAt ?? '' },
        };
      }),
    };
  });
}

/** The racks of an opening: every line kept in order, place by place. */
export async function listRacks(sql: Sql, openingId: string): Promise<Rack[]> {
  return racksOf(await findRackRows(sql, { openingId }));
}

/** Swaps the pieces of two places of one line: only with a reason, by name. */
export async function swapPlaces(
  act: Act,
  asked: { readonly openingId: string; readonly pieceId: string } & SwapPlaces,
): Promise<Rack> {
  const opening = await lockOpenOpening(act, asked.openingId);
  const rows = await findRackRows(act.sql, { openingId: opening.id });
  const places = rows.filter(({ pieceId }) => pieceId === asked.pieceId);
  if (places.length === 0) throw new ProblemError('not-found', 'There is no such line kept in order in this opening.');
  const known = places.map(({ code }) => code).join(', ');
  if (asked.one === asked.other)
    throw new ProblemError('refused', 'Name two places: one piece is swapped with another.');
  const at = (code: string): RackRow =>
    found(
      places.find(({ atCode }) => atCode === code),
      `place ${code} here: the places are ${known}`,
    );
  const [one, other] = [at(asked.one), at(asked.other)];
  const reason = asked.reason.trim();
  const move = { pieceId: asked.pieceId, reason, byId: act.actor.id };
  await insertPositionMove(act.sql, { ...move, id: newId(), code: one.code, atCode: asked.other });
  await insertPositionMove(act.sql, { ...move, id: newId(), code: other.code, atCode: asked.one });
  await act.event('piece.swapped', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: { openingId: opening.id, piece: one.piece, one: asked.one, other: asked.other, reason },
  });
  const [rack] = racksOf(
    (await findRackRows(act.sql, { openingId: opening.id })).filter(({ pieceId }) => pieceId === asked.pieceId),
  );
  return found(rack, 'such line');
}
