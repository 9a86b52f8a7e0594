-- An asking for all or nothing stands as long as something of it is neither reserved nor given up, also when nothing of
-- its job is short any more: what came for the gap may have been reserved, and the rest still lies on the shelf.
update demand_line set asked_whole = false, asked_until = null where short + not_asked = 0 and (asked_whole or asked_until is not null);

alter table demand_line
  add constraint demand_line_asking_is_over check (short + not_asked > 0 or (not asked_whole and asked_until is null));

create index demand_line_asked_whole on demand_line (job_id) where asked_whole and not_asked > 0;

create or replace view job_wait as
  select q.job_id, 'yes' as waits_for, q.sent_at as since, null::date as due_on, q.quote_id as cause_id, ''::text as words,
         'quote' as cause, 'owner' as ends_kind, w.id as ends_id, w.name as ends_name
    from job_quote q join job j on j.id = q.job_id join engine e on e.id = j.engine_id join owner w on w.id = e.owner_id
    where q.yes is null
  union all
  -- The day by which enough of what is on order is promised; none when a line without a day is needed for it.
  select d.job_id, 'parts', d.short_since,
         (select min(c.promised_on)
          from (select pl.promised_on, sum(pl.quantity - pl.received) over (order by pl.promised_on nulls last, pl.id) as by_then
                from purchase_line pl
                where pl.part_id = d.part_id and pl.received < pl.quantity and (pl.job_id is null or pl.job_id = d.job_id)) c
          where c.by_then >= d.short),
         d.id, d.short || ' × ' || p.name, 'demand', 'right', null, 'stores'
    from demand_line d join part p on p.id = d.part_id where d.short > 0
  union all
  -- What was asked for all or nothing, lacks nothing more, and is not reserved yet.
  select d.job_id, 'parts',
         coalesce((select max(r.reserved_at) from reservation r join demand_line o on o.id = r.demand_line_id where o.job_id = d.job_id),
                  d.added_at),
         null, d.id, d.not_asked || ' × ' || p.name, 'demand', 'right', null, 'stores'
    from demand_line d join part p on p.id = d.part_id
    where d.asked_whole and d.not_asked > 0
      and not exists (select from demand_line s where s.job_id = d.job_id and s.short > 0)
  union all
  select o.job_id, 'decision', o.opened_at, null, o.id, o.words, 'obligation', 'right', null, 'decide'
    from obligation o where o.discharged_at is null and o.decided_at is null
  union all
  select w.job_id, 'outside', w.sent_at, w.due_on, w.id, w.work, 'outside work', 'vendor', v.id, v.name
    from outside_work w join vendor v on v.id = w.vendor_id where w.back_at is null
  union all
  select h.job_id, 'person', h.offered_at, null, h.id, '', 'handover', 'person', p.id, p.name
    from handover h join person p on p.id = h.receiver_id where h.ended_at is null
  union all
  select pr.job_id, 'person', pr.proved_at, null, pr.id, pr.name, 'proof', 'right', null, 'bench'
    from proof pr where pr.passed and not exists (select from sign_off s where s.proof_id = pr.id)
  union all
  select a.job_id, 'bay', a.assigned_at, null, a.bay_id, '', 'bay', 'bay', b.id, b.name
    from job_assignment a
    join bay b on b.id = a.bay_id
    join job j on j.id = a.job_id
    join custody c on c.engine_id = j.engine_id and c.until_at is null
    where j.handed_back_at is null and c.place_id is distinct from a.bay_id
      and (select count(*) from custody o where o.place_id = a.bay_id and o.until_at is null and o.engine_id is not null) >= b.capacity;
