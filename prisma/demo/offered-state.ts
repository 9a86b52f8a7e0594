import type { Sql } from '../../server/platform/database/client.ts';

/** What stood open and what was loose when each handover was offered, and what was counted as things left for a vendor. */
export async function keepWhatStood(sql: Sql): Promise<void> {
  await sql`
    insert into handover_obligation (handover_id, obligation_id, ordinal, words)
    select h.id, o.id, row_number() over (partition by h.id order by o.opened_at, o.id), o.words
    from handover h join obligation o on o.job_id = h.job_id
    where o.opened_at <= h.offered_at and (o.discharged_at is null or o.discharged_at > h.offered_at)`;
  await sql`
    insert into handover_fastener (handover_id, set_code, name, stage, positions)
    select h.id, fs.code, fs.name, st.ordinal, array_agg(distinct f.number order by f.number)
    from handover h
    join job j on j.id = h.job_id
    join procedure_run r on r.job_id = h.job_id
    join step_mark m on m.run_id = r.id and m.mark = 'done' and m.marked_at <= h.offered_at
    join procedure_step s on s.id = m.step_id
    join spec_fastener_set fs on fs.revision_id = j.revision_id and fs.code = s.fastener_set
    join spec_fastener f on f.set_id = fs.id
    join spec_fastener_stage st on st.set_id = fs.id
    where not exists (select from torque_pull t where t.job_id = h.job_id and t.set_code = fs.code and t.pulled_at <= h.offered_at)
    group by h.id, fs.code, fs.name, st.ordinal`;
  await sql`
    insert into outside_count (id, outside_work_id, direction, name, expected, counted, counted_by_id, counted_at)
    select md5(w.id::text || 'out')::uuid, w.id, 'out', coalesce(t.name, 'The engine'), 1, 1, w.sent_by_id, w.sent_at
    from outside_work w left join tray t on t.id = w.tray_id`;
}
