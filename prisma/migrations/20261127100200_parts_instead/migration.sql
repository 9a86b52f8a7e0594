-- What may be fitted instead of a part: what replaced it, by itself; an alternative, when somebody took it and said why.

-- A part that is replaced is served by the chain of those that replace it: what may be used up first, the end of the chain
-- last. A link whose parts do not go in each other's place bars everything before it.
create function parts_serving(of_part uuid) returns uuid[] language sql stable as $$
  with recursive chain (id, next, usable, nth) as (
    select p.id, p.superseded_by_id, p.interchangeable, 1 from part p where p.id = of_part
    union all
    select p.id, p.superseded_by_id, p.interchangeable, c.nth + 1 from chain c join part p on p.id = c.next
  )
  select array_agg(c.id order by c.nth) from chain c
  where not exists (select from chain l where l.nth >= c.nth and l.next is not null and not l.usable)
$$;
create index part_superseded_by on part (superseded_by_id) where superseded_by_id is not null;

-- Somebody gave a job an alternative: of which lot, under which condition, and why.
create table alternative_taken (
  id             uuid primary key,
  demand_line_id uuid not null references demand_line,
  lot_id         uuid not null references stock_lot,
  quantity       integer not null check (quantity > 0),
  condition      text not null check (condition ~ '\S' and length(condition) <= 300),
  reason         text not null check (reason ~ '\S' and length(reason) <= 300),
  taken_by_id    uuid not null references person,
  taken_at       timestamptz not null default clock_timestamp()
);
create index alternative_taken_line on alternative_taken (demand_line_id, lot_id);
create trigger append_only before update or delete on alternative_taken for each row execute function refuse_change();

-- An alternative is taken only while it is one.
create function check_alternative_taken() returns trigger language plpgsql as $$
begin
  if not exists (
    select from demand_line d join stock_lot l on l.id = new.lot_id
      join part_alternative_now a on a.part_id = d.part_id and a.other_id = l.part_id
    where d.id = new.demand_line_id
  ) then
    raise exception 'nobody named that part as an alternative for what is wanted' using errcode = 'CH007', table = 'alternative_taken';
  end if;
  return new;
end $$;
create trigger is_an_alternative before insert on alternative_taken for each row execute function check_alternative_taken();

-- Pieces are promised to a line out of a lot of its own part, of one that serves in its place, or of an alternative that
-- somebody took for it.
create function check_reserved_part() returns trigger language plpgsql as $$
declare
  of_line uuid;
  of_lot  uuid;
begin
  if tg_op = 'UPDATE' and new.quantity <= old.quantity then return new; end if;
  select part_id into of_line from demand_line where id = new.demand_line_id;
  select part_id into of_lot from stock_lot where id = new.lot_id;
  if of_line = of_lot
     or of_lot = any(parts_serving(of_line))
     or exists (select from alternative_taken t join demand_line d on d.id = t.demand_line_id
                where d.part_id = of_line and t.lot_id = new.lot_id) then
    return new;
  end if;
  raise exception 'that lot is of another part than the one that is wanted' using errcode = 'CH007', table = 'reservation';
end $$;
create trigger of_the_wanted_part before insert or update of quantity on reservation
  for each row execute function check_reserved_part();

-- A condition is one line: a file of parts has one alternative a line.
alter table part_alternative add constraint part_alternative_one_line check (condition !~ '[\r\n]');
