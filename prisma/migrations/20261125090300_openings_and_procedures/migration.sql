-- Procedures as data, their runs, the opening of an engine and the tally of its loose pieces.

create table procedure (
  id        uuid primary key,
  code      text not null unique,
  name      text not null,
  kind      text not null check (kind in ('strip', 'assemble', 'prove')),
  family_id uuid not null references family
);

create table procedure_version (
  id           uuid primary key,
  procedure_id uuid not null references procedure,
  number       integer not null check (number > 0),
  published_at timestamptz,
  note         text not null default '',
  unique (procedure_id, number)
);

create table procedure_step (
  id             uuid primary key,
  version_id     uuid not null references procedure_version,
  ordinal        integer not null,
  title          text not null,
  words          text not null default '',
  caution        text not null default '',
  second_person  boolean not null default false,
  fastener_set   text,
  dimension_code text,
  unique (version_id, ordinal)
);

create table step_piece (
  id           uuid primary key,
  step_id      uuid not null references procedure_step,
  ordinal      integer not null,
  name         text not null,
  expected     integer not null check (expected > 0),
  from_where   text not null default '',
  why          text not null default '',
  layer        text check (layer in ('cover', 'head', 'cylinder', 'case')),
  one_time     boolean not null default false,
  matched_set  text,
  unique (step_id, ordinal)
);
comment on column step_piece.layer is 'with this piece off, the engine is open to that depth';

create table procedure_run (
  id            uuid primary key,
  job_id        uuid not null references job,
  version_id    uuid not null references procedure_version,
  started_by_id uuid not null references person,
  started_at    timestamptz not null default clock_timestamp(),
  unique (job_id, version_id)
);

create table step_mark (
  id          uuid primary key,
  run_id      uuid not null references procedure_run,
  step_id     uuid not null references procedure_step,
  mark        text not null check (mark in ('done', 'skipped', 'second person')),
  reason      text not null default '',
  marked_by_id uuid not null references person,
  marked_at   timestamptz not null default clock_timestamp(),
  check (mark <> 'skipped' or length(reason) > 0),
  unique (run_id, step_id, mark)
);
create trigger append_only before update or delete on step_mark for each row execute function refuse_change();

create table opening (
  id           uuid primary key,
  engine_id    uuid not null references engine,
  job_id       uuid not null references job,
  opened_by_id uuid not null references person,
  opened_at    timestamptz not null default clock_timestamp(),
  closed_by_id uuid references person,
  closed_at    timestamptz,
  closing_note text not null default '',
  check ((closed_at is null) = (closed_by_id is null)),
  check (closed_at is null or closed_at > opened_at)
);
create unique index opening_one_at_a_time on opening (engine_id) where closed_at is null;
create index opening_job on opening (job_id);

create table opening_cover (
  id          uuid primary key,
  opening_id  uuid not null references opening,
  covered     boolean not null,
  said_by_id  uuid not null references person,
  said_at     timestamptz not null default clock_timestamp()
);
create index opening_cover_latest on opening_cover (opening_id, said_at desc);
create trigger append_only before update or delete on opening_cover for each row execute function refuse_change();

-- One line of the tally. The counts are kept by the trigger below from piece_movement and by nothing else.
create table piece (
  id           uuid primary key,
  opening_id   uuid not null references opening,
  step_piece_id uuid references step_piece,
  name         text not null check (length(name) between 1 and 120),
  from_where   text not null default '',
  why          text not null default '',
  layer        text check (layer in ('cover', 'head', 'cylinder', 'case')),
  one_time     boolean not null default false,
  matched_set  text,
  expected     integer not null check (expected >= 0),
  tray_id      uuid references tray,
  off          integer not null default 0,
  fitted       integer not null default 0,
  renewed      integer not null default 0,
  accounted    integer not null default 0,
  added_at     timestamptz not null default clock_timestamp(),
  unique (opening_id, step_piece_id),
  check (off >= 0 and fitted >= 0 and renewed >= 0 and accounted >= 0),
  constraint piece_back_at_most_off check (fitted + renewed + accounted <= off)
);
create index piece_opening on piece (opening_id);
create index piece_tray on piece (tray_id);

create table piece_movement (
  id          uuid primary key,
  piece_id    uuid not null references piece,
  act         text not null check (act in ('off', 'found', 'never there', 'possibly inside', 'moved', 'fitted', 'renewed', 'accounted')),
  count       integer not null check (count >= 0),
  tray_id     uuid references tray,
  reason      text not null default '',
  moved_by_id uuid not null references person,
  moved_at    timestamptz not null default clock_timestamp()
);
create index piece_movement_piece on piece_movement (piece_id, moved_at);
create trigger append_only before update or delete on piece_movement for each row execute function refuse_change();

create function keep_piece_counts() returns trigger language plpgsql as $$
begin
  update piece set
    off       = off       + case when new.act in ('off', 'found') then new.count else 0 end,
    expected  = expected  - case when new.act = 'never there' then new.count else 0 end,
    fitted    = fitted    + case when new.act = 'fitted' then new.count else 0 end,
    renewed   = renewed   + case when new.act = 'renewed' then new.count else 0 end,
    accounted = accounted + case when new.act = 'accounted' then new.count else 0 end,
    tray_id   = case when new.act in ('off', 'found', 'moved') then coalesce(new.tray_id, tray_id) else tray_id end
  where id = new.piece_id;
  return null;
end $$;
create trigger keep_counts after insert on piece_movement for each row execute function keep_piece_counts();

-- The blind count of a handover, line by line. `given` is the giver's number, kept from every reply and event
-- until the receiver has committed the count of that tray.
create table handover_line (
  id          uuid primary key,
  handover_id uuid not null references handover,
  tray_id     uuid not null references tray,
  piece_id    uuid references piece,
  name        text not null,
  given       integer not null check (given >= 0),
  unique (handover_id, tray_id, piece_id)
);

create table handover_count (
  id           uuid primary key,
  line_id      uuid not null references handover_line,
  attempt      integer not null check (attempt between 1 and 3),
  counted      integer not null check (counted >= 0),
  counted_by_id uuid not null references person,
  counted_at   timestamptz not null default clock_timestamp(),
  unique (line_id, attempt)
);
create trigger append_only before update or delete on handover_count for each row execute function refuse_change();
create trigger append_only before update or delete on handover_line for each row execute function refuse_change();

-- Work done outside: which tray went to which vendor, for what, due when.
create table outside_work (
  id         uuid primary key,
  job_id     uuid not null references job,
  tray_id    uuid references tray,
  engine_id  uuid references engine,
  vendor_id  uuid not null references vendor,
  work       text not null check (length(work) between 1 and 500),
  due_on     date,
  sent_by_id uuid not null references person,
  sent_at    timestamptz not null default clock_timestamp(),
  back_by_id uuid references person,
  back_at    timestamptz,
  check (num_nonnulls(tray_id, engine_id) = 1),
  check ((back_at is null) = (back_by_id is null))
);
create index outside_work_away on outside_work (job_id) where back_at is null;
