-- Where a job stands is derived from facts, never typed in. These views are that derivation.

create view opening_standing as
  select o.id as opening_id, o.engine_id, o.job_id, o.opened_at,
    coalesce(d.depth, 'cover') as depth,
    coalesce(c.covered, false) as covered,
    coalesce(c.said_at, o.opened_at) as covered_since
  from opening o
  left join lateral (
    select case max(case p.layer when 'cover' then 1 when 'head' then 2 when 'cylinder' then 3 when 'case' then 4 end)
             when 1 then 'cover' when 2 then 'head' when 3 then 'cylinder' when 4 then 'case' end as depth
    from piece p where p.opening_id = o.id and p.layer is not null and p.off > p.fitted + p.renewed + p.accounted
  ) d on true
  left join lateral (
    select oc.covered, oc.said_at from opening_cover oc where oc.opening_id = o.id order by oc.said_at desc limit 1
  ) c on true
  where o.closed_at is null;

-- A finding that no later one of the same job, dimension and round has replaced, and none of whose readings was struck.
create view finding_standing as
  select f.* from finding f
  where not exists (select from finding n where n.supersedes_id = f.id)
    and not exists (select from finding_reading r join reading_strike s on s.reading_id = r.reading_id where r.finding_id = f.id);

create view job_assignment as
  select distinct on (a.job_id) a.job_id, a.bay_id, a.assigned_at, a.assigned_by_id
  from bay_assignment a order by a.job_id, a.assigned_at desc, a.id desc;

create view job_promise as
  select distinct on (p.job_id) p.job_id, p.ready_on, p.sure_of_5, p.made_at
  from promise p order by p.job_id, p.made_at desc, p.id desc;

create view job_quote as
  select distinct on (q.job_id) q.job_id, q.id as quote_id, q.number, q.currency, q.total_minor, q.sent_at, a.yes, a.sum_minor, a.taken_at
  from quote q left join quote_answer a on a.quote_id = q.id order by q.job_id, q.number desc;

-- What each open job waits for: one row a wait, since when, until when where that is known, and who can end it: a
-- person, the owner, a vendor, everyone with a right, or a bay that gets room.
create view job_wait as
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
