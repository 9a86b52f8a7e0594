import type { Sql } from '#platform/database/client.ts';

export async function findBoxed(sql: Sql, jobId: string) {
  const [row] = await sql<
    { cause: 'no' | 'withdrawn'; reason: string; note: string; byId: string; by: string; at: string }[]
  >`
    select b.cause, b.reason, j.handed_back_note as note, p.id as "byId", p.name as by, b.boxed_at as at
    from boxed_hand_back b join job j on j.id = b.job_id join person p on p.id = b.boxed_by_id where b.job_id = ${jobId}`;
  return row;
}

export async function findBoxedLines(sql: Sql, jobId: string) {
  return sql<{ pieceId: string; name: string; trayId: string | null; label: string | null; count: number }[]>`
    select l.piece_id as "pieceId", piece_name(p) as name,
           l.tray_id as "trayId", t.label, l.count
    from boxed_line l join piece p on p.id = l.piece_id left join tray t on t.id = l.tray_id
    where l.job_id = ${jobId} order by l.ordinal`;
}

export async function findBoxedObligations(sql: Sql, jobId: string): Promise<readonly string[]> {
  const rows = await sql<{ words: string }[]>`
    select words from boxed_obligation where job_id = ${jobId} order by ordinal`;
  return rows.map(({ words }) => words);
}

/** How deep the engine is open, or was when it went. */
export async function findDepth(sql: Sql, jobId: string) {
  const [row] = await sql<{ depth: 'cover' | 'head' | 'cylinder' | 'case' }[]>`
    select coalesce(s.depth, (
             select case max(case p.layer when 'cover' then 1 when 'head' then 2 when 'cylinder' then 3 when 'case' then 4 end)
                      when 2 then 'head' when 3 then 'cylinder' when 4 then 'case' else 'cover' end
             from boxed_line l join piece p on p.id = l.piece_id where l.job_id = o.job_id)) as depth
    from opening o left join opening_standing s on s.opening_id = o.id
    where o.job_id = ${jobId} and (o.closed_at is null or o.left_in_boxes)`;
  return row?.depth ?? null;
}

export async function insertBoxed(
  sql: Sql,
  of: {
    jobId: string;
    openingId: string;
    cause: string;
    quoteId: string | null;
    reason: string;
    byId: string;
    lines: readonly { readonly pieceId: string; readonly trayId: string | null; readonly count: number }[];
    obligations: readonly { readonly id: string; readonly words: string }[];
  },
): Promise<void> {
  await sql`
    insert into boxed_hand_back (job_id, opening_id, cause, quote_id, reason, boxed_by_id)
    values (${of.jobId}, ${of.openingId}, ${of.cause}, ${of.quoteId}, ${of.reason}, ${of.byId})`;
  const lines = of.lines.map(({ pieceId, trayId, count }, at) => ({
    ...{ job_id: of.jobId, ordinal: at + 1, piece_id: pieceId, tray_id: trayId, count },
  }));
  if (lines.length > 0) await sql`insert into boxed_line ${sql(lines)}`;
  const obligations = of.obligations.map(({ id, words }, at) => ({
    ...{ job_id: of.jobId, obligation_id: id, ordinal: at + 1, words },
  }));
  if (obligations.length > 0) await sql`insert into boxed_obligation ${sql(obligations)}`;
}
