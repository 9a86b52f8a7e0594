import type { Rack, RackInShop } from '#contracts/searches.ts';
import { blindTrays } from '#features/custody/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findOpening } from './queries.ts';
import { findRackOwner, findRackRows, type RackRow } from './rack-queries.ts';

const named = (id: string | null, name: string | null) => (id === null ? null : { id, name: name ?? '' });

/** One place: `lies` is the row of the piece that lies in it or belongs to it now. */
function placeOf({ code, name, side }: RackRow, lies: RackRow, hidden: boolean): Rack['places'][number] {
  const by = named(lies.byId, lies.by);
  const filledBy = named(lies.filledById, lies.filledBy);
  return {
    code,
    name,
    side,
    filled: hidden ? null : lies.laid,
    tray: hidden || !lies.laid ? null : named(lies.trayId, lies.tray),
    since: hidden || filledBy === null || lies.filledAt === null ? null : { by: filledBy, at: lies.filledAt },
    from: lies.code,
    fromName: lies.name,
    swapped:
      lies.code === code || by === null || lies.movedAt === null ? null : { reason: lies.reason, by, at: lies.movedAt },
  };
}

function racksOf(rows: readonly RackRow[], blind: ReadonlySet<string>): Rack[] {
  const lines = new Map<string, RackRow[]>();
  for (const row of rows) lines.set(row.pieceId, [...(lines.get(row.pieceId) ?? []), row]);
  return [...lines.values()].flatMap((places) => {
    const [line] = places;
    if (line === undefined) return [];
    const hidden = line.trayIds.some((trayId) => blind.has(trayId));
    return [
      {
        pieceId: line.pieceId,
        name: line.piece,
        fromWhere: line.fromWhere,
        oneTime: line.oneTime,
        loose: hidden ? null : line.loose,
        lying: line.lying.map(({ trayId, label, count }) => ({
          tray: named(trayId, label),
          count: hidden ? null : count,
        })),
        places: places.map((row) => placeOf(row, places.find(({ atCode }) => atCode === row.code) ?? row, hidden)),
      },
    ];
  });
}

/** The racks of an opening, or of one line of it. What lies in a tray that is counted blind is not told. */
export async function listRacks(
  sql: Sql,
  of: { readonly openingId: string; readonly viewerId: string; readonly pieceId?: string },
): Promise<Rack[]> {
  const opening = found(await findOpening(sql, of.openingId), 'such opening');
  const blind = await blindTrays(sql, { jobId: opening.jobId, viewerId: of.viewerId });
  return racksOf(await findRackRows(sql, of), blind);
}

/** One rack, by the label it carries. */
export async function getRack(
  sql: Sql,
  of: { readonly pieceId: string; readonly viewerId: string },
): Promise<RackInShop> {
  const owner = found(await findRackOwner(sql, of.pieceId), 'such rack');
  const [rack] = await listRacks(sql, { ...of, openingId: owner.openingId });
  return { ...found(rack, 'such rack'), ...owner };
}
