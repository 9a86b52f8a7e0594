-- The shop itself: its people and bays, who is signed in, and the two tables every write goes through
-- (event, idempotency_key). One database is one shop.

create extension if not exists btree_gist;

-- Facts are appended: a trigger on this function keeps a table from being rewritten.
create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% is append-only: a correction is a new row', tg_table_name
    using errcode = 'CH001', table = tg_table_name;
end $$;

create table shop (
  id                  smallint primary key default 1 check (id = 1),
  name                text not null check (length(name) between 1 and 120),
  zone                text not null,
  locale              text not null,
  currency            char(3) not null check (currency ~ '^[A-Z]{3}$'),
  open_limit_minutes  integer not null default 2880 check (open_limit_minutes > 0),
  figures_invented    boolean not null default false
);

create table person (
  id         uuid primary key,
  name       text not null check (length(name) between 1 and 120),
  initials   text not null unique check (length(initials) between 1 and 4),
  badge      text unique,
  pin_hash   text not null,
  joined_at  timestamptz not null default clock_timestamp(),
  left_at    timestamptz
);

create table person_role (
  person_id  uuid not null references person,
  role       text not null check (role in ('service writer', 'technician', 'parts clerk', 'lead')),
  primary key (person_id, role)
);

create table bay (
  id          uuid primary key,
  name        text not null unique check (length(name) between 1 and 60),
  kind        text not null check (kind in ('strip', 'wash', 'measuring', 'head bench', 'machining', 'assembly', 'run-up', 'rack')),
  capacity    integer not null check (capacity between 1 and 100),
  grid_column integer not null check (grid_column >= 1),
  grid_row    integer not null check (grid_row >= 1),
  grid_width  integer not null default 1 check (grid_width >= 1),
  grid_height integer not null default 1 check (grid_height >= 1),
  retired_at  timestamptz
);

create table terminal (
  id       uuid primary key,
  name     text not null unique check (length(name) between 1 and 60),
  bay_id   uuid references bay,
  added_at timestamptz not null default clock_timestamp()
);

create table session (
  id          uuid primary key,
  token_hash  bytea not null unique,
  person_id   uuid not null references person,
  terminal_id uuid references terminal,
  started_at  timestamptz not null default clock_timestamp(),
  seen_at     timestamptz not null default clock_timestamp(),
  expires_at  timestamptz not null,
  ended_at    timestamptz
);
create index session_person on session (person_id);

-- Failed sign-ins only: enough to slow a guesser down, gone after a day.
create table sign_in_failure (
  id        bigint generated always as identity primary key,
  person_id uuid references person,
  address   text not null,
  failed_at timestamptz not null default clock_timestamp()
);
create index sign_in_failure_person on sign_in_failure (person_id, failed_at);
create index sign_in_failure_address on sign_in_failure (address, failed_at);

create table vendor (
  id         uuid primary key,
  name       text not null unique check (length(name) between 1 and 120),
  trade      text not null,
  contact    text not null default '',
  retired_at timestamptz
);

create table owner (
  id       uuid primary key,
  name     text not null check (length(name) between 1 and 120),
  contact  text not null default '',
  added_at timestamptz not null default clock_timestamp()
);

-- A write is committed with its key and its reply, or neither is there.
create table idempotency_key (
  key         uuid primary key,
  fingerprint bytea not null,
  actor_id    uuid not null references person,
  status      integer not null check (status between 200 and 499),
  reply       jsonb,
  etag        text,
  created_at  timestamptz not null default clock_timestamp()
);
create index idempotency_key_age on idempotency_key (created_at);
