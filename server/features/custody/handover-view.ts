import type { CountDifference, Handover, HandoverPage, HandoverQuery, HandoverTray } from '#contracts/custody.ts';
import type { ToHandOver } from '#contracts/custody-past.ts';
import { looseFasteners } from '#features/openings/service.ts';
import { afterCursor, cursorOf } from '#platform/cursor.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import {
  findHandover,
  findHandovers,
  findLines,
  findOfferedState,
  findOpenObligations,
  type HandoverRow,
  type LineRow,
} from './handover-queries.ts';
import { blindTraysAndPieces, wordsShownTo } from './service.ts';
import { findLooseIn } from './tray-queries.ts';

const headOf = (row: HandoverRow) => ({
  id: row.id,
  job: { id: row.jobId, number: row.number },
  engine: { id: row.engineId, serial: row.serial },
  includesEngine: row.includesEngine,
  giver: { id: row.giverId, name: row.giver },
  receiver: { id: row.receiverId, name: row.receiver },
  place: { id: row.placeId, name: row.place },
  stateWords: row.stateWords,
  looseWords: row.looseWords,
  offeredAt: row.offeredAt,
  answerDueAt: row.answerDueAt,
  outcome: row.outcome,
  endedAt: row.endedAt,
  endedReason: row.endedReason,
});

export const differencesOf = (lines: readonly LineRow[]): CountDifference[] =>
  lines.flatMap(({ trayId, label, name, given, counted }) =>
    counted === null || counted === given ? [] : [{ trayId, tray: label, piece: name, given, counted }],
  );

/** What an earlier handover counted of a piece that is on offer again, in whichever tray, would tell how many there are. */
function withoutCounts(tray: HandoverTray, hidden: readonly LineRow[]): HandoverTray {
  const [ids, names] = [new Set(hidden.map(({ lineId }) => lineId)), new Set(hidden.map(({ name }) => name))];
  return {
    ...tray,
    lines: tray.lines.map((line) =>
      ids.has(line.lineId) ? { ...line, counted: null, given: null, places: null } : line,
    ),
    differences: tray.differences.filter(({ piece }) => !names.has(piece)),
  };
}

/** One tray of a handover as a viewer may see it: the giver's numbers, and the places that tell them, only once it is counted, or to the giver. */
export function trayOf(lines: readonly LineRow[], viewerIsGiver: boolean): HandoverTray {
  const [first] = lines;
  const counted = lines.every((line) => line.counted !== null);
  return {
    trayId: first?.trayId ?? '',
    label: first?.label ?? '',
    name: first?.trayName ?? '',
    attempts: first?.attempts ?? 0,
    counted,
    lines: lines.map((line) => ({
      lineId: line.lineId,
      name: line.name,
      counted: line.counted,
      given: counted || viewerIsGiver ? line.given : null,
      places: counted || viewerIsGiver ? [...line.places] : null,
      alsoIn: [...line.alsoIn],
    })),
    differences: counted ? differencesOf(lines) : [],
    obligations: lines.flatMap(({ obligationId }) => obligationId ?? []),
  };
}

export async function getHandover(sql: Sql, of: { id: string; viewerId: string }): Promise<Handover> {
  const row = found(await findHandover(sql, of.id), 'such handover');
  const lines = await findLines(sql, of.id);
  const then = await findOfferedState(sql, of.id);
  const trayIds = [...new Set(lines.map(({ trayId }) => trayId))];
  const ofJob = { jobId: row.jobId, viewerId: of.viewerId };
  const [shown, blind] = [await wordsShownTo(sql, ofJob), await blindTraysAndPieces(sql, ofJob)];
  return {
    ...headOf(row),
    openObligations: then.obligations.map(({ id, words }) => shown(id, words)),
    looseFasteners: then.loose,
    trays: trayIds.map((trayId) => {
      const ofTray = lines.filter((line) => line.trayId === trayId);
      const tray = trayOf(ofTray, row.giverId === of.viewerId);
      if (row.endedAt === null) return tray;
      return withoutCounts(
        tray,
        ofTray.filter(({ pieceId }) => blind.has(trayId) || blind.has(pieceId)),
      );
    }),
  };
}

export async function listHandovers(
  sql: Sql,
  { viewerId, query }: { viewerId: string; query: HandoverQuery },
): Promise<HandoverPage> {
  const limit = query.limit ?? 50;
  const rows = await findHandovers(sql, {
    personId: query.mine === 'true' ? viewerId : undefined,
    openOnly: query.open === 'true',
    after: afterCursor(query.after),
    limit: limit + 1,
  });
  const items = rows
    .slice(0, limit)
    .map((row) => ({ ...headOf(row), trays: row.trays, traysCounted: row.traysCounted }));
  const last = items.at(-1);
  return {
    items,
    next: rows.length > limit && last !== undefined ? cursorOf({ at: last.offeredAt, id: last.id }) : null,
  };
}

/** What an offer made now would say of the engine: what stands open, what is loose. */
export async function toHandOver(sql: Sql, of: { jobId: string; viewerId: string }): Promise<ToHandOver> {
  const shown = await wordsShownTo(sql, of);
  return {
    openObligations: (await findOpenObligations(sql, of.jobId)).map(({ id, words }) => shown(id, words)),
    looseFasteners: await looseFasteners(sql, of.jobId),
    besideEngine: (await findLooseIn(sql, { trayIds: [], besideOf: of })).map(({ name }) => name),
  };
}
