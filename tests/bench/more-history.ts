import type { SqlPool } from '#platform/database/client.ts';

/**
 * Makes the shop's past `times` as long: engines that were here and went, with their jobs, custody, readings, findings and
 * events, and stock that came and went. What stands on the floor now stays as it is.
 */
export async function lengthenHistory(
  sql: SqlPool,
  times: number,
): Promise<{ readonly events: number; readonly findings: number }> {
  const copies = times - 1;
  await sql.unsafe(`
    create temp table past as
      select j.*, gen_random_uuid() as new_job, gen_random_uuid() as new_engine, n
      from job j, generate_series(1, ${copies}) n where j.handed_back_at is not null;
    insert into engine (id, serial, family_id, owner_id, event_count)
      select p.new_engine, e.serial || '-' || p.n || '-' || p.number, e.family_id, e.owner_id, 100000 from past p join engine e on e.id = p.engine_id;
    insert into job (id, number, engine_id, revision_id, running_minutes, complaint, taken_in_by_id, taken_in_at, handed_back_by_id, handed_back_at)
      select new_job, 100000 + row_number() over (), new_engine, revision_id, running_minutes, complaint, taken_in_by_id, taken_in_at, handed_back_by_id, handed_back_at from past;
    insert into custody (id, engine_id, owner_id, from_at, moved_by_id)
      select gen_random_uuid(), p.new_engine, e.owner_id, p.handed_back_at, p.handed_back_by_id from past p join engine e on e.id = p.engine_id;
    insert into finding (id, job_id, engine_id, revision_id, dimension_code, dimension_name, round, kind, unit, decimals, value_type, value_low, value_high,
                         u, dof, guard, rule, verdict, p_past_low, p_past_high, margin, nearest_side, nearest_limit, inside, limits, budget, warnings,
                         instruments, running_minutes, formula_version, judged_by_id, judged_at)
      select gen_random_uuid(), p.new_job, p.new_engine, f.revision_id, f.dimension_code, f.dimension_name, f.round, f.kind, f.unit, f.decimals, f.value_type,
             f.value_low, f.value_high, f.u, f.dof, f.guard, f.rule, f.verdict, f.p_past_low, f.p_past_high, f.margin, f.nearest_side, f.nearest_limit, f.inside,
             f.limits, f.budget, f.warnings, f.instruments, f.running_minutes, f.formula_version, f.judged_by_id, f.judged_at
      from past p join finding f on f.job_id = p.id;
    insert into event (id, kind, actor_id, engine_id, engine_number, job_id, data, happened_at, recorded_at)
      select gen_random_uuid(), v.kind, v.actor_id, p.new_engine, row_number() over (partition by p.new_engine order by v.recorded_at), p.new_job, v.data, v.happened_at, v.recorded_at
      from past p join event v on v.job_id = p.id;
    insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, moved_by_id, moved_at, reason)
      select gen_random_uuid(), m.lot_id, a.act, a.change, 0, m.moved_by_id, m.moved_at, 'long ago'
      from stock_movement m, generate_series(1, ${copies}) n, (values ('receive', 1), ('scrap', -1)) a (act, change) where m.act = 'receive';
    drop table past;
  `);
  await sql`analyze`;
  const [row] = await sql<{ events: number; findings: number }[]>`
    select (select count(*)::int from event) as events, (select count(*)::int from finding) as findings`;
  return row ?? { events: 0, findings: 0 };
}
