import type { OutsideInShop, PackingSlip } from '#contracts/custody-past.ts';
import { shopHead } from '#features/shop/head/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { blindTraysAndPieces } from './service.ts';
import { findSlip, findSlipLines, findSlipsAway, type OutsideCount, type SlipRow } from './slip-queries.ts';
import type { LooseLine } from './tray-queries.ts';

const subjectOf = (row: SlipRow) => ({
  kind: row.trayId === null ? ('engine' as const) : ('tray' as const),
  id: row.trayId ?? row.engineId,
  name: row.subjectName,
});
const engineOf = ({ engineId: id, serial, family }: SlipRow) => ({ id, serial, family });

/** What goes, or came back, line by line: the loose pieces of a tray, or an empty one; the engine, and what lies beside it. */
export function countsOnSlip(
  loose: readonly LooseLine[],
  of: {
    readonly tray: { readonly name: string } | undefined;
    readonly counts: readonly { readonly pieceId: string; readonly counted: number }[];
  },
): OutsideCount[] {
  const itself = { pieceId: null, name: of.tray?.name ?? 'The engine', expected: 1, counted: 1 };
  const pieces = loose.map((line) => ({
    pieceId: line.pieceId,
    name: line.name,
    expected: line.loose,
    counted: of.counts.find(({ pieceId }) => pieceId === line.pieceId)?.counted ?? 0,
  }));
  return of.tray === undefined || pieces.length === 0 ? [itself, ...pieces] : pieces;
}

/** The packing slip of one thing sent out, and what came back of it. */
export async function packingSlip(sql: Sql, of: { id: string; viewerId: string }): Promise<PackingSlip> {
  const row = found(await findSlip(sql, of.id), 'such outside work');
  const lines = await findSlipLines(sql, of.id);
  const blind = await blindTraysAndPieces(sql, { jobId: row.jobId, viewerId: of.viewerId });
  return {
    id: row.id,
    number: row.number,
    shop: await shopHead(sql),
    vendor: { id: row.vendorId, name: row.vendor, trade: row.trade, contact: row.contact },
    engine: engineOf(row),
    drawn: { cycle: row.cycle, cooling: row.cooling },
    subject: { ...subjectOf(row), words: row.subjectWords, layer: row.layer },
    work: row.work,
    dueOn: row.dueOn,
    sentAt: row.sentAt,
    sentBy: { id: row.sentById, name: row.sentBy },
    backAt: row.backAt,
    backBy: row.backById === null ? null : { id: row.backById, name: row.backBy ?? '' },
    late: row.daysLate > 0,
    // What came back may lie in another tray by now, and be on offer there.
    lines: lines.map(({ pieceId, name, out, back }) =>
      [row.trayId, pieceId].some((id) => id !== null && blind.has(id))
        ? { name, out: null, back: null }
        : { name, out, back },
    ),
  };
}

export async function listOutsideNow(sql: Sql): Promise<OutsideInShop> {
  return {
    items: (await findSlipsAway(sql)).map((row) => ({
      id: row.id,
      number: row.number,
      vendor: { id: row.vendorId, name: row.vendor },
      engine: engineOf(row),
      job: { id: row.jobId, number: row.jobNumber },
      subject: subjectOf(row),
      work: row.work,
      dueOn: row.dueOn,
      sentAt: row.sentAt,
      daysLate: row.daysLate,
    })),
  };
}
