-- An engine that its owner declined goes home in boxes: every tray is counted and listed, and its opening ends as left in
-- boxes, which is not closed.

alter table opening add column left_in_boxes boolean not null default false;
alter table opening add constraint opening_in_boxes_has_ended check (not left_in_boxes or closed_at is not null);
comment on column opening.left_in_boxes is 'it ended, and the engine was never closed: it went to its owner in boxes';

create table boxed_hand_back (
  job_id      uuid primary key references job,
  opening_id  uuid not null unique references opening,
  cause       text not null check (cause in ('no', 'withdrawn')),
  quote_id    uuid references quote,
  reason      text not null check (length(trim(reason)) > 0),
  boxed_by_id uuid not null references person,
  boxed_at    timestamptz not null default clock_timestamp(),
  check ((cause = 'no') = (quote_id is not null))
);
comment on column boxed_hand_back.quote_id is 'the newest quote, to which the owner said no; none: the owner withdraws, as the reason tells';
create trigger append_only before update or delete on boxed_hand_back for each row execute function refuse_change();

-- What was counted of a line of the tally as it went, tray by tray; no tray: it lay beside the engine.
create table boxed_line (
  job_id   uuid not null references boxed_hand_back,
  ordinal  integer not null check (ordinal > 0),
  piece_id uuid not null references piece,
  tray_id  uuid references tray,
  count    integer not null check (count > 0),
  primary key (job_id, ordinal),
  unique nulls not distinct (job_id, piece_id, tray_id)
);
create trigger append_only before update or delete on boxed_line for each row execute function refuse_change();

-- The obligations that stood open when it went, in the words of that moment.
create table boxed_obligation (
  job_id        uuid not null references boxed_hand_back,
  obligation_id uuid not null references obligation,
  ordinal       integer not null,
  words         text not null,
  primary key (job_id, obligation_id)
);
create trigger append_only before update or delete on boxed_obligation for each row execute function refuse_change();

create function boxed_by_lead_for_cause() returns trigger language plpgsql as $$
begin
  if not exists (select from person_role where person_id = new.boxed_by_id and role = 'lead') then
    raise exception 'only a lead hands an engine back in boxes' using errcode = 'CH008', table = 'boxed_hand_back';
  end if;
  if not exists (select from opening where id = new.opening_id and job_id = new.job_id and closed_at is null) then
    raise exception 'only an engine that is open goes back in boxes' using errcode = 'CH002', table = 'boxed_hand_back';
  end if;
  if new.cause = 'no' and not exists (
       select from job_quote q where q.job_id = new.job_id and q.quote_id = new.quote_id and q.yes = false) then
    raise exception 'the owner has not said no to the newest quote' using errcode = 'CH002', table = 'boxed_hand_back';
  end if;
  return new;
end $$;
create trigger by_lead_for_cause before insert on boxed_hand_back for each row execute function boxed_by_lead_for_cause();

create function boxed_as_it_lies() returns trigger language plpgsql as $$
begin
  if not exists (
       select from piece_lying l join piece p on p.id = l.piece_id join opening o on o.id = p.opening_id
       where o.job_id = new.job_id and l.piece_id = new.piece_id and l.tray_id is not distinct from new.tray_id and l.count = new.count) then
    raise exception 'the packing list tells other than what lies there' using errcode = 'CH002', table = 'boxed_line';
  end if;
  return new;
end $$;
create trigger as_it_lies before insert on boxed_line for each row execute function boxed_as_it_lies();

-- In one transaction or not at all: everything listed and given, the opening ended in boxes, the job handed back.
create function boxes_are_whole() returns trigger language plpgsql as $$
begin
  if exists (select from piece_lying l join piece p on p.id = l.piece_id join opening o on o.id = p.opening_id where o.job_id = new.job_id) then
    raise exception 'pieces of it still lie in the shop: all of them go with it' using errcode = 'CH002', table = 'boxed_hand_back';
  end if;
  if not exists (select from opening where id = new.opening_id and left_in_boxes)
     or not exists (select from job where id = new.job_id and handed_back_at is not null) then
    raise exception 'it is listed as given in boxes, but was not handed back so' using errcode = 'CH002', table = 'boxed_hand_back';
  end if;
  return null;
end $$;
create constraint trigger boxes_are_whole after insert on boxed_hand_back deferrable initially deferred
  for each row execute function boxes_are_whole();

-- What may be inside goes with the engine, and the packing list says so. What was put in and is still in comes out first.
create or replace function opening_closes_on_nothing_inside() returns trigger language plpgsql as $$
declare held record;
begin
  if old.left_in_boxes is distinct from new.left_in_boxes and old.closed_at is not null then
    raise exception 'how an opening ended is not rewritten' using errcode = 'CH006', table = 'opening';
  end if;
  if old.closed_at is not null or new.closed_at is null then return new; end if;
  if new.left_in_boxes and not exists (select from boxed_hand_back b where b.opening_id = new.id) then
    raise exception 'no packing list was made for an engine left in boxes' using errcode = 'CH002', table = 'opening';
  end if;
  select l.count, l.what into held from turning_lock l where l.opening_id = new.id and not new.left_in_boxes limit 1;
  if held is not null then
    raise exception 'not closed: % × % may be inside', held.count, held.what using errcode = 'CH019', table = 'opening';
  end if;
  select i.count - i.came_out as count, i.name, i.where_words into held
    from put_in i
    where i.opening_id = new.id and i.came_out + case when new.left_in_boxes then i.not_found else 0 end < i.count limit 1;
  if held is not null then
    raise exception 'not closed: % × % (%) was put in and has not come out', held.count, held.name, held.where_words
      using errcode = 'CH002', table = 'opening';
  end if;
  return new;
end $$;
