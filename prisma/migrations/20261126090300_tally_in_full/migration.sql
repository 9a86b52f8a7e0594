-- The tally in full: pieces of one line in several trays, rags and plugs as acts of their own, searches for what may be
-- inside and the lock on turning over, places of a set, the closing check, looks at an open engine, and the shop's limits.

-- Where the pieces of a line lie. `piece.with_engine` and `piece_in_tray.count` are kept by the trigger from movements.
create table piece_in_tray (
  piece_id  uuid not null references piece,
  tray_id   uuid not null references tray,
  count     integer not null,
  primary key (piece_id, tray_id),
  constraint piece_in_tray_not_below_zero check (count >= 0)
);
create index piece_in_tray_tray on piece_in_tray (tray_id);

alter table piece add column with_engine integer not null default 0;
alter table piece add column inside integer not null default 0;
insert into piece_in_tray (piece_id, tray_id, count)
  select id, tray_id, off - fitted - renewed - accounted from piece where tray_id is not null;
update piece set with_engine = off - fitted - renewed - accounted where tray_id is null;
update piece set inside = least(greatest(expected - off, 0), m.said)
  from (select piece_id, sum(count)::int as said from piece_movement where act = 'possibly inside' group by piece_id) m
  where m.piece_id = piece.id and exists (select from opening o where o.id = piece.opening_id and o.closed_at is null);
drop index piece_tray;
alter table piece drop column tray_id;
alter table piece add constraint piece_with_engine_not_below_zero check (with_engine >= 0);
alter table piece add constraint piece_inside_at_most_missing check (inside >= 0 and (inside = 0 or inside <= expected - off));
comment on column piece.with_engine is 'loose and in no tray: kept with the engine';
comment on column piece.inside is 'missing, and declared as possibly inside: while it is not 0 nobody turns the engine over';

alter table piece_movement add column from_tray_id uuid references tray;
alter table piece_movement drop constraint piece_movement_act_check;
alter table piece_movement add constraint piece_movement_act_check check (act in
  ('off', 'found', 'never there', 'possibly inside', 'not inside', 'moved', 'fitted', 'renewed', 'accounted'));
comment on column piece_movement.from_tray_id is 'the tray it was taken out of, for what was loose; none: it lay with the engine';
comment on column piece_movement.tray_id is 'the tray it was laid in; none: it stays with the engine';

create or replace function keep_piece_counts() returns trigger language plpgsql as $$
declare
  laid boolean := new.act in ('off', 'found', 'moved');
  taken boolean := new.act in ('moved', 'fitted', 'renewed', 'accounted');
begin
  if taken and new.from_tray_id is not null then
    update piece_in_tray set count = count - new.count where piece_id = new.piece_id and tray_id = new.from_tray_id;
    if not found then
      raise exception 'none of these pieces lies in that tray' using errcode = 'CH002', table = 'piece_movement';
    end if;
  end if;
  if laid and new.tray_id is not null then
    insert into piece_in_tray (piece_id, tray_id, count) values (new.piece_id, new.tray_id, new.count)
      on conflict (piece_id, tray_id) do update set count = piece_in_tray.count + excluded.count;
  end if;
  update piece set
    off         = off       + case when new.act in ('off', 'found') then new.count else 0 end,
    expected    = expected  - case when new.act in ('never there', 'not inside') then new.count else 0 end,
    fitted      = fitted    + case when new.act = 'fitted' then new.count else 0 end,
    renewed     = renewed   + case when new.act = 'renewed' then new.count else 0 end,
    accounted   = accounted + case when new.act = 'accounted' then new.count else 0 end,
    inside      = case when new.act = 'possibly inside' then inside + new.count
                       when new.act in ('off', 'found') then least(inside, greatest(expected - off - new.count, 0))
                       when new.act = 'not inside' then inside - new.count else inside end,
    with_engine = with_engine + case when laid and new.tray_id is null then new.count else 0 end
                              - case when taken and new.from_tray_id is null then new.count else 0 end
  where id = new.piece_id;
  return null;
end $$;

-- A tray belongs to one job; so do the pieces in it.
create function piece_stays_in_its_job() returns trigger language plpgsql as $$
begin
  if exists (select from tray t join piece p on p.id = new.piece_id join opening o on o.id = p.opening_id
             where t.id in (new.tray_id, new.from_tray_id) and t.job_id <> o.job_id) then
    raise exception 'that tray is of another job' using errcode = 'CH002', table = 'piece_movement';
  end if;
  return new;
end $$;
create trigger stays_in_its_job before insert on piece_movement for each row execute function piece_stays_in_its_job();

-- Rags, plugs and whatever else is put into an open engine: in and out by named acts.
create table put_in (
  id            uuid primary key,
  opening_id    uuid not null references opening,
  kind          text not null check (kind in ('rag', 'plug', 'tool', 'other')),
  name          text not null check (length(name) between 1 and 120),
  where_words   text not null check (length(where_words) between 1 and 200),
  count         integer not null check (count > 0),
  came_out      integer not null default 0,
  not_found     integer not null default 0,
  put_in_by_id  uuid not null references person,
  put_in_at     timestamptz not null default clock_timestamp(),
  constraint put_in_out_at_most_in check (came_out >= 0 and not_found >= 0 and came_out + not_found <= count)
);
create index put_in_opening on put_in (opening_id, put_in_at);
comment on column put_in.came_out is 'kept by the trigger on put_in_act, as is not_found';

create table put_in_act (
  id          uuid primary key,
  put_in_id   uuid not null references put_in,
  act         text not null check (act in ('taken out', 'not found', 'found', 'not inside')),
  count       integer not null check (count > 0),
  reason      text not null default '',
  acted_by_id uuid not null references person,
  acted_at    timestamptz not null default clock_timestamp(),
  check (act = 'taken out' or length(reason) > 0)
);
create index put_in_act_put_in on put_in_act (put_in_id, acted_at);
create trigger append_only before update or delete on put_in_act for each row execute function refuse_change();

create function keep_put_in_counts() returns trigger language plpgsql as $$
begin
  update put_in set
    came_out  = came_out  + case when new.act = 'not found' then 0 else new.count end,
    not_found = not_found + case new.act when 'not found' then new.count when 'taken out' then 0 else -new.count end
  where id = new.put_in_id;
  return null;
end $$;
create trigger keep_counts after insert on put_in_act for each row execute function keep_put_in_counts();

-- The search for what may be inside: opened with its obligation, ended by finding it or by a lead's named decision.
create table inside_search (
  id            uuid primary key,
  opening_id    uuid not null references opening,
  engine_id     uuid not null references engine,
  job_id        uuid not null references job,
  piece_id      uuid references piece,
  put_in_id     uuid references put_in,
  obligation_id uuid not null unique references obligation,
  count         integer not null check (count > 0),
  opened_by_id  uuid not null references person,
  opened_at     timestamptz not null default clock_timestamp(),
  outcome       text check (outcome in ('found', 'not inside')),
  ended_by_id   uuid references person,
  ended_at      timestamptz,
  ended_reason  text not null default '',
  check (num_nonnulls(piece_id, put_in_id) = 1),
  check (num_nonnulls(outcome, ended_by_id, ended_at) in (0, 3)),
  check (outcome is null or length(ended_reason) > 0)
);
create index inside_search_engine on inside_search (engine_id, opened_at);
create index inside_search_open on inside_search (engine_id) where ended_at is null;
create index inside_search_job on inside_search (job_id);

create function inside_search_ends_once() returns trigger language plpgsql as $$
begin
  if tg_op = 'DELETE' or old.ended_at is not null
     or (to_jsonb(old) - '{outcome,ended_by_id,ended_at,ended_reason}'::text[])
        is distinct from (to_jsonb(new) - '{outcome,ended_by_id,ended_at,ended_reason}'::text[]) then
    raise exception 'a search ends once and is not rewritten' using errcode = 'CH006', table = 'inside_search';
  end if;
  if new.outcome = 'not inside' and not exists (select from person_role where person_id = new.ended_by_id and role = 'lead') then
    raise exception 'only a lead decides that it is not inside' using errcode = 'CH008', table = 'inside_search';
  end if;
  if exists (select from piece where id = new.piece_id and inside > 0)
     or exists (select from put_in where id = new.put_in_id and not_found > 0) then
    raise exception 'it has not been found: the search goes on' using errcode = 'CH002', table = 'inside_search';
  end if;
  return new;
end $$;
create trigger ends_once before update or delete on inside_search for each row execute function inside_search_ends_once();

create table search_tick (
  id           uuid primary key,
  search_id    uuid not null references inside_search,
  step_code    text not null check (length(step_code) between 1 and 40),
  words        text not null default '',
  ticked_by_id uuid not null references person,
  ticked_at    timestamptz not null default clock_timestamp(),
  unique (search_id, step_code)
);
create trigger append_only before update or delete on search_tick for each row execute function refuse_change();

-- While something may be inside, nobody turns the engine over.
create view turning_lock as
  select o.engine_id, o.job_id, o.id as opening_id, p.id as piece_id, null::uuid as put_in_id, p.inside as count,
         p.name || case when p.from_where = '' then '' else ', ' || p.from_where end as what
    from piece p join opening o on o.id = p.opening_id where p.inside > 0
  union all
  select o.engine_id, o.job_id, o.id, null, i.id, i.not_found, i.name || ', ' || i.where_words
    from put_in i join opening o on o.id = i.opening_id where i.not_found > 0;
create index piece_inside on piece (opening_id) where inside > 0;
create index put_in_not_found on put_in (opening_id) where not_found > 0;


create function refuse_turning_over(of_job uuid, doing text) returns void language plpgsql as $$
declare held record;
begin
  select l.count, l.what into held from turning_lock l where l.job_id = of_job limit 1;
  if held is null then return; end if;
  raise exception 'the engine must not be turned over: % × % may be inside. % waits until the search has ended', held.count, held.what, doing
    using errcode = 'CH019', table = 'turning_lock';
end $$;

create function proof_waits_for_search() returns trigger language plpgsql as $$
begin
  perform refuse_turning_over(new.job_id, new.name);
  return new;
end $$;
create trigger waits_for_search before insert on proof for each row execute function proof_waits_for_search();

-- Lash is read at crank positions, compression with the engine spun.
create function reading_waits_for_search() returns trigger language plpgsql as $$
begin
  if new.kind = 'pressure' or exists (
       select from job j join spec_valve v on v.revision_id = j.revision_id
       where j.id = new.job_id and v.dimension_code = new.dimension_code) then
    perform refuse_turning_over(new.job_id, 'This reading');
  end if;
  return new;
end $$;
create trigger waits_for_search before insert on reading for each row execute function reading_waits_for_search();

create function step_waits_for_search() returns trigger language plpgsql as $$
declare step_title text; of_job uuid;
begin
  if new.mark <> 'done' then return new; end if;
  select title into step_title from procedure_step where id = new.step_id;
  select job_id into of_job from procedure_run where id = new.run_id;
  -- A step turns the engine over where it cautions of just that, and where it has the lash measured.
  if exists (select from step_caution c where c.step_id = new.step_id and c.hazard = 'pulled through by hand')
     or exists (
       select from job j join spec_valve v on v.revision_id = j.revision_id
       join step_reading r on r.dimension_code = v.dimension_code and r.step_id = new.step_id
       where j.id = of_job) then
    perform refuse_turning_over(of_job, step_title);
  end if;
  return new;
end $$;
create trigger waits_for_search before insert on step_mark for each row execute function step_waits_for_search();

-- An opening is not closed, by anybody, while something may be inside or what was put in has not come out.
create function opening_closes_on_nothing_inside() returns trigger language plpgsql as $$
declare held record;
begin
  if old.closed_at is not null or new.closed_at is null then return new; end if;
  select l.count, l.what into held from turning_lock l where l.opening_id = new.id limit 1;
  if held is not null then
    raise exception 'not closed: % × % may be inside', held.count, held.what using errcode = 'CH019', table = 'opening';
  end if;
  select i.count - i.came_out as count, i.name, i.where_words into held
    from put_in i where i.opening_id = new.id and i.came_out < i.count limit 1;
  if held is not null then
    raise exception 'not closed: % × % (%) was put in and has not come out', held.count, held.name, held.where_words
      using errcode = 'CH002', table = 'opening';
  end if;
  return new;
end $$;
create trigger closes_on_nothing_inside before update on opening for each row execute function opening_closes_on_nothing_inside();

-- Pieces of a line that must go back where they came from: the places of the rack they are laid out in.
create table piece_position (
  piece_id uuid not null references piece,
  code     text not null check (length(code) between 1 and 24),
  name     text not null check (length(name) between 1 and 60),
  side     text not null default '' check (side in ('', 'intake', 'exhaust')),
  ordinal  integer not null check (ordinal > 0),
  primary key (piece_id, code),
  unique (piece_id, ordinal)
);
create trigger append_only before update or delete on piece_position for each row execute function refuse_change();

-- Which place a piece was put into that came from `code`. Into another one only with a reason.
create table position_move (
  id          uuid primary key,
  piece_id    uuid not null references piece,
  code        text not null,
  at_code     text not null,
  reason      text not null default '',
  moved_by_id uuid not null references person,
  moved_at    timestamptz not null default clock_timestamp(),
  constraint position_move_has_a_reason check (code = at_code or length(reason) > 0)
);
create function position_is_known() returns trigger language plpgsql as $$
begin
  if (select count(*) from piece_position where piece_id = new.piece_id and code in (new.code, new.at_code))
     < (case when new.code = new.at_code then 1 else 2 end) then
    raise exception 'there is no such place in that rack' using errcode = 'CH002', table = 'position_move';
  end if;
  return new;
end $$;
create trigger place_is_known before insert on position_move for each row execute function position_is_known();
create index position_move_piece on position_move (piece_id, code, moved_at);
create trigger append_only before update or delete on position_move for each row execute function refuse_change();

create view position_standing as
  select p.piece_id, p.code, p.name, p.side, p.ordinal, coalesce(m.at_code, p.code) as at_code, coalesce(m.reason, '') as reason,
         m.moved_by_id, m.moved_at
  from piece_position p
  left join lateral (
    select m.at_code, m.reason, m.moved_by_id, m.moved_at from position_move m
    where m.piece_id = p.piece_id and m.code = p.code order by m.moved_at desc, m.id desc limit 1
  ) m on true;

create function one_piece_a_position() returns trigger language plpgsql as $$
begin
  if (select count(*) > count(distinct at_code) from position_standing where piece_id = new.piece_id) then
    raise exception 'two pieces would lie in one place: swap them' using errcode = 'CH002', table = 'position_move';
  end if;
  return null;
end $$;
create constraint trigger one_piece_a_position after insert on position_move deferrable initially deferred
  for each row execute function one_piece_a_position();

-- The closing check: line by line, by another person than who put it back.
create table closing_check (
  id            uuid primary key,
  opening_id    uuid not null references opening,
  piece_id      uuid references piece,
  put_in_id     uuid references put_in,
  checked_by_id uuid not null references person,
  checked_at    timestamptz not null default clock_timestamp(),
  check (num_nonnulls(piece_id, put_in_id) = 1)
);
create index closing_check_opening on closing_check (opening_id, checked_at);
create trigger append_only before update or delete on closing_check for each row execute function refuse_change();

create function checked_by_another() returns trigger language plpgsql as $$
begin
  if exists (select from piece_movement m where m.piece_id = new.piece_id and m.moved_by_id = new.checked_by_id
             and m.act in ('fitted', 'renewed', 'accounted'))
     or exists (select from put_in_act a where a.put_in_id = new.put_in_id and a.acted_by_id = new.checked_by_id) then
    raise exception 'who put it back does not check it: another person looks' using errcode = 'CH008', table = 'closing_check';
  end if;
  return new;
end $$;
create trigger by_another before insert on closing_check for each row execute function checked_by_another();

-- Somebody looked at the open engine and said how it was covered.
create table opening_look (
  id           uuid primary key,
  opening_id   uuid not null references opening,
  covered      boolean not null,
  words        text not null default '',
  looked_by_id uuid not null references person,
  looked_at    timestamptz not null default clock_timestamp()
);
create index opening_look_latest on opening_look (opening_id, looked_at desc);
create trigger append_only before update or delete on opening_look for each row execute function refuse_change();

-- The shop's limits on open engines, with their history: the newest holds.
create table opening_rule (
  id                uuid primary key,
  uncovered_minutes integer not null check (uncovered_minutes between 5 and 100000),
  covered_minutes   integer not null check (covered_minutes between 5 and 1000000),
  note              text not null default '',
  set_by_id         uuid not null references person,
  set_at            timestamptz not null default clock_timestamp(),
  check (covered_minutes >= uncovered_minutes)
);
create index opening_rule_latest on opening_rule (set_at desc);
create trigger append_only before update or delete on opening_rule for each row execute function refuse_change();

create table shift_end (
  rule_id uuid not null references opening_rule,
  weekday integer not null check (weekday between 1 and 7),
  ends_at text not null check (ends_at ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$'),
  primary key (rule_id, weekday)
);
comment on column shift_end.ends_at is 'in the shop''s zone; weekday 1 is Monday';
create trigger append_only before update or delete on shift_end for each row execute function refuse_change();
