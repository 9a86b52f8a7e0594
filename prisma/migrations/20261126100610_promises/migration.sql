-- What is promised: holds that run out by themselves, askings that stand until they are served, and what may be taken
-- instead of a part.

-- When a hold has run out, or stock is free for who waits, the service acts by itself: nobody's hand moves a piece then.
alter table stock_movement alter column moved_by_id drop not null;
alter table stock_movement add constraint stock_movement_by_somebody
  check (moved_by_id is not null or act in ('reserve', 'release'));
create index reservation_running on reservation (expires_at) where quantity > 0 and expires_at is not null;

-- An asking stands until it is served: all or nothing, or piece by piece; until a day where it waits for the owner's yes.
alter table demand_line
  add column asked_whole boolean not null default false,
  add column asked_until timestamptz;

-- A part that was replaced: its stock is used up first, unless old and new do not go in each other's place.
alter table part add column interchangeable boolean not null default true;
comment on column part.interchangeable is 'with the part that replaces it: either may be fitted where the other is asked for';

create function refuse_supersession_circle() returns trigger language plpgsql as $$
begin
  if new.superseded_by_id is null then return new; end if;
  -- Two links that close a circle only together must see each other.
  perform pg_advisory_xact_lock(hashtextextended('supersession', 0));
  if exists (
    with recursive chain (id) as (
      select new.superseded_by_id
      union
      select p.superseded_by_id from chain c join part p on p.id = c.id where p.superseded_by_id is not null
    ) select from chain where id = new.id
  ) then
    raise exception 'a part cannot be replaced, over others, by itself: part % is in its own chain', new.number
      using errcode = 'CH007', table = 'part';
  end if;
  return new;
end $$;
create trigger supersession_no_circle before insert or update of superseded_by_id on part
  for each row execute function refuse_supersession_circle();

-- Another part that will do, and on which condition (an oversize, once it is bored); the newest row of a pair holds, an
-- empty condition takes it back.
create table part_alternative (
  id         uuid primary key,
  part_id    uuid not null references part,
  other_id   uuid not null references part,
  condition  text not null check (length(condition) <= 300),
  told_by_id uuid not null references person,
  told_at    timestamptz not null default clock_timestamp(),
  constraint part_alternative_other check (part_id <> other_id)
);
create index part_alternative_part on part_alternative (part_id, other_id, told_at desc);
create trigger append_only before update or delete on part_alternative for each row execute function refuse_change();
create view part_alternative_now as
  select n.part_id, n.other_id, n.condition from (
    select distinct on (a.part_id, a.other_id) a.part_id, a.other_id, a.condition
    from part_alternative a order by a.part_id, a.other_id, a.told_at desc, a.id desc
  ) n where n.condition <> '';

-- A reservation that one job gave up to another: who decided, and why.
create table reassignment (
  id           uuid primary key,
  from_line_id uuid not null references demand_line,
  to_line_id   uuid not null references demand_line,
  quantity     integer not null check (quantity > 0),
  reason       text not null check (reason ~ '\S' and length(reason) <= 300),
  decided_by_id uuid not null references person,
  decided_at   timestamptz not null default clock_timestamp(),
  constraint reassignment_other check (from_line_id <> to_line_id)
);
create index reassignment_from on reassignment (from_line_id);
create index reassignment_to on reassignment (to_line_id);
create trigger append_only before update or delete on reassignment for each row execute function refuse_change();
