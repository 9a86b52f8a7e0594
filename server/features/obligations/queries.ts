import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface NewObligation {
  readonly engineId: string;
  readonly jobId: string;
  readonly words: string;
  readonly inside: boolean;
  readonly cause:
    | { readonly findingId: string }
    | { readonly handoverLineId: string }
    /** `movementId`: the count or suspicion on the tally that raised it; without one, a tray was counted. */
    | { readonly pieceId: string; readonly movementId?: string }
    /** Nothing counted or measured: a named person raised it. */
    | { readonly raisedById: string };
}

/** As many words as an obligation keeps. */
export const longestWords = 500;

export async function insertObligation(sql: Sql, of: NewObligation): Promise<string> {
  const id = newId();
  const { engineId, jobId, words, inside, cause } = of;
  const finding = 'findingId' in cause ? cause.findingId : null;
  const line = 'handoverLineId' in cause ? cause.handoverLineId : null;
  const piece = 'pieceId' in cause ? cause.pieceId : null;
  const movement = 'pieceId' in cause ? (cause.movementId ?? null) : null;
  const raisedBy = 'raisedById' in cause ? cause.raisedById : null;
  await sql`
    insert into obligation (id, engine_id, job_id, words, inside, finding_id, handover_line_id, piece_id, piece_movement_id, raised_by_id)
    values (${id}, ${engineId}, ${jobId}, ${words.slice(0, longestWords)}, ${inside}, ${finding}, ${line}, ${piece}, ${movement}, ${raisedBy})`;
  return id;
}

export interface NewObligationAct {
  readonly obligationId: string;
  readonly act: 'decided' | 'discharged' | 'reopened';
  readonly dispositionId?: string;
  readonly findingId?: string;
  readonly reason?: string;
}

/** Adds what was done about an obligation; a trigger keeps how it stands. */
export async function insertObligationAct(sql: Sql, of: NewObligationAct & { readonly byId: string }): Promise<void> {
  await sql`
    insert into obligation_act (id, obligation_id, act, disposition_id, finding_id, reason, acted_by_id)
    values (${newId()}, ${of.obligationId}, ${of.act}, ${of.dispositionId ?? null}, ${of.findingId ?? null},
            ${of.reason ?? ''}, ${of.byId})`;
}

/** The undischarged obligation with the same words about the same piece of a tray: counting it again tells nothing new. */
export async function findTrayMiscount(
  sql: Sql,
  of: { readonly pieceId: string; readonly words: string },
): Promise<string | undefined> {
  const [row] = await sql<{ id: string }[]>`
    select id from obligation
    where piece_id = ${of.pieceId} and piece_movement_id is null and discharged_at is null and words = ${of.words.slice(0, longestWords)}
    order by opened_at, id limit 1`;
  return row?.id;
}

/** Obligations that the tally itself has raised about a piece and that stand: not those of a tray counted otherwise. */
export async function findTallyObligations(sql: Sql, pieceId: string): Promise<readonly string[]> {
  const rows = await sql<{ id: string }[]>`
    select id from obligation
    where piece_id = ${pieceId} and piece_movement_id is not null and discharged_at is null order by opened_at, id`;
  return rows.map(({ id }) => id);
}
