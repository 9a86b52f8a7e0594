-- Handovers in full: what was open and what was loose when it was offered, how long an offer may stay unanswered, counts
-- as things leave for a vendor and come back, and the report that a lead signs at the end of a shift.

-- How long an offer waits for its answer before it is shown as overdue; the newest row holds.
create table custody_rule (
  id             uuid primary key,
  answer_minutes integer not null check (answer_minutes between 5 and 10080),
  set_by_id      uuid not null references person,
  set_at         timestamptz not null default clock_timestamp()
);
create index custody_rule_latest on custody_rule (set_at desc);
create trigger append_only before update or delete on custody_rule for each row execute function refuse_change();

create function answer_time() returns interval language sql stable as $$
  select make_interval(mins => coalesce((select answer_minutes from custody_rule order by set_at desc, id desc limit 1), 30))
$$;

-- The obligations that stood open when an engine or trays of it were offered, in the words of that moment.
create table handover_obligation (
  handover_id   uuid not null references handover,
  obligation_id uuid not null references obligation,
  ordinal       integer not null,
  words         text not null,
  primary key (handover_id, obligation_id)
);
create trigger append_only before update or delete on handover_obligation for each row execute function refuse_change();
insert into handover_obligation (handover_id, obligation_id, ordinal, words)
  select h.id, o.id, row_number() over (partition by h.id order by o.opened_at, o.id), o.words
  from handover h join obligation o on o.job_id = h.job_id
  where o.opened_at <= h.offered_at and (o.discharged_at is null or o.discharged_at > h.offered_at);

-- Fasteners loosened or not pulled to their last stage when it was offered, out of the torque log.
create table handover_fastener (
  handover_id uuid not null references handover,
  set_code    text not null,
  name        text not null,
  stage       integer not null check (stage > 0),
  positions   integer[] not null check (cardinality(positions) > 0),
  primary key (handover_id, set_code, stage)
);
create trigger append_only before update or delete on handover_fastener for each row execute function refuse_change();

-- What was counted of a piece as it left for a vendor, and as it came back. `piece_id` null: the thing itself.
create table outside_count (
  id              uuid primary key,
  outside_work_id uuid not null references outside_work,
  direction       text not null check (direction in ('out', 'back')),
  piece_id        uuid references piece,
  name            text not null,
  expected        integer not null check (expected >= 0),
  counted         integer not null check (counted >= 0),
  counted_by_id   uuid not null references person,
  counted_at      timestamptz not null default clock_timestamp(),
  unique nulls not distinct (outside_work_id, direction, piece_id)
);
create trigger append_only before update or delete on outside_count for each row execute function refuse_change();

-- A shift's end as a lead found it and signed it: who still held what, what was unheld, unanswered or uncovered.
create table shift_report (
  id           uuid primary key,
  as_of        timestamptz not null,
  snapshot     jsonb not null,
  note         text not null default '',
  signed_by_id uuid not null references person,
  signed_at    timestamptz not null default clock_timestamp(),
  check (as_of <= signed_at)
);
create index shift_report_latest on shift_report (signed_at desc, id desc);
create trigger append_only before update or delete on shift_report for each row execute function refuse_change();

create function shift_report_by_lead() returns trigger language plpgsql as $$
begin
  if not exists (select from person_role where person_id = new.signed_by_id and role = 'lead') then
    raise exception 'only a lead signs the end of a shift' using errcode = 'CH008', table = 'shift_report';
  end if;
  return new;
end $$;
create trigger by_lead before insert on shift_report for each row execute function shift_report_by_lead();

-- Who held what at an instant, over the whole shop.
create index custody_from on custody (from_at);
create index custody_until on custody (until_at);
create index custody_person on custody (person_id, from_at) where person_id is not null;
