-- Which lots of a part a job's line may have: the oldest, a shim of an exact thickness, pieces of one grade; who said so, and why.

-- A lot may bear a mark of its own, as pistons and bearing shells of one number do; without one it is of its part's grade.
alter table stock_lot add column grade text not null default '' check (grade = btrim(grade) and length(grade) <= 20);

create table demand_lot_rule (
  id             uuid primary key,
  demand_line_id uuid not null references demand_line,
  rule           text not null check (rule in ('oldest', 'exact thickness', 'grade')),
  thickness_nm   bigint[] not null default '{}',
  others_any     boolean not null default false,
  grade          text not null default '' check (grade = btrim(grade) and length(grade) <= 20),
  cause          text not null check (cause in ('by hand', 'shim choice', 'grade asked')),
  reason         text not null check (reason ~ '\S' and length(reason) <= 300),
  set_by_id      uuid not null references person,
  set_at         timestamptz not null default clock_timestamp(),
  constraint demand_lot_rule_says_which check (case rule
    when 'oldest' then cardinality(thickness_nm) = 0 and not others_any and grade = ''
    when 'grade' then cardinality(thickness_nm) = 0 and not others_any and grade <> ''
    else grade = '' and 0 < all (thickness_nm) and cardinality(thickness_nm) between 1 and 64
      and (others_any or cardinality(thickness_nm) = 1) end)
);
comment on column demand_lot_rule.thickness_nm is 'a piece of each of these; of a single one without others_any, every piece';
comment on column demand_lot_rule.others_any is 'pieces beyond those of thickness_nm are of any thickness';
create index demand_lot_rule_line on demand_lot_rule (demand_line_id, set_at);
create trigger append_only before update or delete on demand_lot_rule for each row execute function refuse_change();

-- The rule in force: the line's own, the oldest first where none was set.
alter table demand_line add column lot_rule_id uuid references demand_lot_rule;

create function check_own_lot_rule() returns trigger language plpgsql as $$
begin
  if not exists (select from demand_lot_rule r where r.id = new.lot_rule_id and r.demand_line_id = new.id) then
    raise exception 'a line is served by a rule of its own' using errcode = 'CH007', table = 'demand_line';
  end if;
  return null;
end $$;
create constraint trigger own_lot_rule after insert or update of lot_rule_id on demand_line
  for each row when (new.lot_rule_id is not null) execute function check_own_lot_rule();

-- Somebody took a lot that does not meet the rule which was in force, and said why.
create table lot_against_rule (
  id             uuid primary key,
  demand_line_id uuid not null references demand_line,
  lot_id         uuid not null references stock_lot,
  rule_id        uuid not null references demand_lot_rule,
  quantity       integer not null check (quantity > 0),
  reason         text not null check (reason ~ '\S' and length(reason) <= 300),
  taken_by_id    uuid not null references person,
  taken_at       timestamptz not null default clock_timestamp()
);
create index lot_against_rule_line on lot_against_rule (demand_line_id, lot_id);
create trigger append_only before update or delete on lot_against_rule for each row execute function refuse_change();

-- What a line has of each thickness: reserved for it, or handed out to it and not brought back.
create function thicknesses_got(of_line uuid, of_job uuid) returns table (nm bigint, pieces integer) language sql stable as $$
  select coalesce(l.shim_nm, p.shim_nm), sum(m.reserved_change - m.on_hand_change)::int
  from stock_movement m join stock_lot l on l.id = m.lot_id join part p on p.id = l.part_id
  where m.job_id = of_job and m.demand_line_id = of_line group by 1 having sum(m.reserved_change - m.on_hand_change) > 0
$$;

-- Of so many pieces that a line by exact thickness asks for, how many stock could give it now.
create function pieces_of_thickness(of_line uuid, asked integer) returns integer language sql stable as $$
  with line as (
    select d.id, d.job_id, lr.thickness_nm, lr.others_any,
      case when p.superseded_by_id is null then array[p.id] else parts_serving(p.id) end as served_by
    from demand_line d join part p on p.id = d.part_id join demand_lot_rule lr on lr.id = d.lot_rule_id where d.id = of_line
  ), free as (
    select coalesce(l.shim_nm, p.shim_nm) as nm, sum(l.on_hand - l.reserved)::int as pieces
    from line join stock_lot l on l.part_id = any(line.served_by) join part p on p.id = l.part_id
    where l.on_hand > 0 and l.on_hand > l.reserved and not l.used group by 1
  ), listed as (
    select t.nm, count(*)::int as pieces from line cross join unnest(line.thickness_nm) t (nm) group by t.nm
  ), needed as (
    select n.nm, greatest(0, n.pieces - coalesce(g.pieces, 0)) as pieces
    from line cross join listed n left join thicknesses_got(line.id, line.job_id) g on g.nm = n.nm
  ), exact as (
    select coalesce(sum(n.pieces), 0)::int as asked, coalesce(sum(least(n.pieces, f.pieces)), 0)::int as given
    from needed n left join free f on f.nm = n.nm
  )
  select case
    when not line.others_any then coalesce((select f.pieces from free f where f.nm = line.thickness_nm[1]), 0)
    else least(asked, exact.given + least(greatest(0, asked - exact.asked),
      coalesce((select sum(f.pieces)::int from free f), 0) - exact.given)) end
  from line cross join exact
$$;

-- Pieces are promised to a line out of lots that meet its rule, or out of one that somebody took against it and said why.
create function check_lot_rule() returns trigger language plpgsql as $$
declare
  wanted record;
  lying  record;
begin
  if tg_op = 'UPDATE' and new.quantity <= old.quantity then return new; end if;
  select lr.*, d.wanted - d.cancelled as pieces into wanted
    from demand_line d join demand_lot_rule lr on lr.id = d.lot_rule_id where d.id = new.demand_line_id;
  if not found or wanted.rule = 'oldest' then return new; end if;
  select coalesce(l.shim_nm, p.shim_nm) as nm, coalesce(nullif(l.grade, ''), p.grade) as grade into lying
    from stock_lot l join part p on p.id = l.part_id where l.id = new.lot_id;
  if (wanted.rule = 'grade' and lower(lying.grade) = lower(wanted.grade))
     or coalesce(wanted.rule = 'exact thickness' and lying.nm = any(wanted.thickness_nm), false)
     or exists (select from lot_against_rule t
                where t.demand_line_id = new.demand_line_id and t.lot_id = new.lot_id and t.rule_id = wanted.id) then
    return new;
  end if;
  if wanted.others_any and new.quantity + coalesce((
       select sum(r.quantity) from reservation r join stock_lot l on l.id = r.lot_id join part p on p.id = l.part_id
       where r.demand_line_id = new.demand_line_id and r.lot_id <> new.lot_id
         and not coalesce(coalesce(l.shim_nm, p.shim_nm) = any(wanted.thickness_nm), false)), 0) <= wanted.pieces - cardinality(wanted.thickness_nm) then
    return new;
  end if;
  raise exception 'that lot does not meet the rule by which lots are chosen for the line' using errcode = 'CH007', table = 'reservation';
end $$;
create trigger by_the_lot_rule before insert or update of quantity on reservation
  for each row execute function check_lot_rule();

-- Shims that were chosen for valves before rules were kept: those lines want the thicknesses that were chosen.
with newest as (
  select distinct on (sc.job_id, sc.valve_code) sc.job_id, sc.lot_id, sc.chosen_at, sc.chosen_by_id
  from shim_choice sc join job j on j.id = sc.job_id and j.handed_back_at is null
  order by sc.job_id, sc.valve_code, sc.chosen_at desc
), set_now as (
  insert into demand_lot_rule (id, demand_line_id, rule, thickness_nm, others_any, cause, reason, set_by_id)
  select gen_random_uuid(), d.id, 'exact thickness', array_agg(coalesce(l.shim_nm, p.shim_nm) order by n.chosen_at), true,
    'shim choice', 'chosen for its valves', (array_agg(n.chosen_by_id order by n.chosen_at desc))[1]
  from newest n join stock_lot l on l.id = n.lot_id join part p on p.id = l.part_id
    join demand_line d on d.job_id = n.job_id and d.part_id = l.part_id
  where coalesce(l.shim_nm, p.shim_nm) is not null
  group by d.id
  returning id, demand_line_id
)
update demand_line d set lot_rule_id = s.id from set_now s where d.id = s.demand_line_id;
