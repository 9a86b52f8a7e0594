import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** By which act something changes hands without a giver who waits for the count. */
export type MovingAct = 'take' | 'leave' | 'move' | 'send out' | 'back';

export interface NewMovingCount {
  readonly jobId: string;
  readonly act: MovingAct;
  /** Null: beside the engine, in no tray. */
  readonly trayId: string | null;
  readonly pieceId: string;
  readonly expected: number;
  readonly counted: number;
  readonly byId: string;
}

/** Keeps a count that differs, with the obligation it opened or that stands for the same. */
export async function insertMovingCount(
  sql: Sql,
  of: NewMovingCount & { readonly obligationId: string },
): Promise<void> {
  await sql`
    insert into moving_count (id, job_id, act, tray_id, piece_id, expected, counted, obligation_id, counted_by_id)
    values (${newId()}, ${of.jobId}, ${of.act}, ${of.trayId}, ${of.pieceId}, ${of.expected}, ${of.counted}, ${of.obligationId}, ${of.byId})`;
}

/** Keeps a count that agrees, where an earlier one of the same piece at the same place differed and that is not settled. */
export async function insertCountAgain(sql: Sql, of: NewMovingCount): Promise<void> {
  await sql`
    insert into moving_count (id, job_id, act, tray_id, piece_id, expected, counted, counted_by_id)
    select ${newId()}::uuid, ${of.jobId}::uuid, ${of.act}, ${of.trayId}::uuid, ${of.pieceId}::uuid, ${of.expected}::int, ${of.counted}::int, ${of.byId}::uuid
    where exists (select from moving_count m join obligation o on o.id = m.obligation_id and o.discharged_at is null
                  where m.piece_id = ${of.pieceId} and m.tray_id is not distinct from ${of.trayId}::uuid)`;
}
