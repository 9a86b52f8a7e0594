import type { HeldBy, NewTray, TrayInShop, Trays } from '#contracts/custody.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { findBayOfTerminal } from './queries.ts';
import { blindTrays, holdingOf, moveTo } from './service.ts';
import {
  findLooseIn,
  findNextTrayNumber,
  findTrays,
  findTraysInShop,
  type HolderOfTray,
  insertTray,
} from './tray-queries.ts';

function heldBy(row: HolderOfTray): HeldBy | null {
  if (row.holderKind === null) return null;
  const place = row.placeId === null ? null : { id: row.placeId, name: row.placeName ?? '' };
  return { kind: row.holderKind, id: row.holderId, name: row.holderName, place, since: row.since };
}

/** Every tray in use, who holds each and where: what somebody still holds, what rests in a bay. */
export async function listTraysInShop(sql: Sql): Promise<TrayInShop[]> {
  return (await findTraysInShop(sql)).map((row) => ({
    id: row.id,
    label: row.label,
    name: row.name,
    alone: row.alone,
    job: { id: row.jobId, number: row.number },
    engine: { id: row.engineId, serial: row.serial },
    held: heldBy(row),
    offeredIn: row.offeredIn,
  }));
}

/** The trays of a job, who holds each, and what is loose in them. */
export async function listTrays(sql: Sql, of: { jobId: string; viewerId: string }): Promise<Trays> {
  const rows = await findTrays(sql, of.jobId);
  const lines = await findLooseIn(sql, { trayIds: rows.map(({ id }) => id), besideOf: of });
  const blind = await blindTrays(sql, of);
  const piecesIn = (id: string) =>
    lines
      .filter(({ trayId }) => trayId === id)
      .map(({ pieceId, name, loose }) => ({ pieceId, name, count: blind.has(id) ? null : loose }));
  const trayIds = new Set(rows.map(({ id }) => id));
  const engineId = lines.find(({ trayId }) => !trayIds.has(trayId))?.trayId;
  const items = rows.map((row) => ({
    id: row.id,
    label: row.label,
    name: row.name,
    alone: row.alone,
    layer: row.layer,
    madeAt: row.madeAt,
    emptiedAt: row.emptiedAt,
    offeredIn: row.offeredIn,
    held: heldBy(row),
    pieces: piecesIn(row.id),
  }));
  return { items, withEngine: engineId === undefined ? [] : piecesIn(engineId) };
}

/** A new tray: its maker holds it, in the bay where the engine is or else that of the terminal. */
export async function makeTray(act: Act, jobId: string, asked: NewTray): Promise<{ id: string; label: string }> {
  const job = await openJob(act, jobId);
  const engine = await holdingOf(act, { engineId: job.engineId });
  const { terminalId } = act.actor;
  const placeId =
    engine.placeId ?? (terminalId === undefined ? undefined : await findBayOfTerminal(act.sql, terminalId));
  if (placeId === undefined) {
    throw new ProblemError(
      'refused',
      'The engine is in no bay, and this terminal stands in none. Make the tray at a bench.',
    );
  }
  const label = asked.label?.trim() ?? `${job.number}·${await findNextTrayNumber(act.sql, job)}`;
  const name = asked.name.trim();
  const id = await insertTray(act.sql, {
    jobId,
    label,
    name,
    alone: asked.alone ?? false,
    layer: asked.layer ?? null,
  });
  await moveTo(act, { trayId: id }, { to: { personId: act.actor.id, placeId }, reason: 'new tray' });
  await act.event('tray.made', { engineId: job.engineId, jobId, data: { label, name, alone: asked.alone ?? false } });
  return { id, label };
}
