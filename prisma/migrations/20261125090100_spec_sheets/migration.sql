-- Spec sheets. A revision, once published, never changes again: jobs are bound to it and their findings quote it.
-- Quantities are whole numbers in the base unit of their kind (nm, µN·m, Pa, mN, µ°, mm³, ppm, mK).

create table family (
  id       uuid primary key,
  code     text not null unique check (code ~ '^[A-Z0-9-]{2,12}$'),
  name     text not null unique check (length(name) between 1 and 60),
  cycle    text not null check (cycle in ('four-stroke', 'two-stroke')),
  cooling  text not null check (cooling in ('water', 'air')),
  bore_nm  bigint not null check (bore_nm > 0),
  stroke_nm bigint not null check (stroke_nm > 0)
);

create table spec_revision (
  id                    uuid primary key,
  family_id             uuid not null references family,
  number                integer not null check (number > 0),
  note                  text not null default '',
  figures_invented      boolean not null default false,
  ring_separation_udeg  bigint check (ring_separation_udeg between 0 and 180000000),
  drafted_by_id         uuid references person,
  drafted_at            timestamptz not null default clock_timestamp(),
  published_by_id       uuid references person,
  published_at          timestamptz,
  unique (family_id, number)
);

create table spec_place (
  id          uuid primary key,
  revision_id uuid not null references spec_revision,
  code        text not null check (length(code) between 1 and 40),
  name        text not null,
  ordinal     integer not null,
  layer       text check (layer in ('cover', 'head', 'cylinder', 'case')),
  material    text not null default '',
  alpha_ppb   integer not null default 0 check (alpha_ppb >= 0),
  alpha_u_ppb integer not null default 0 check (alpha_u_ppb >= 0),
  plated      boolean not null default false,
  unique (revision_id, code)
);
comment on column spec_place.alpha_ppb is 'thermal expansion, 1e-9 per kelvin';

create table spec_dimension (
  id              uuid primary key,
  revision_id     uuid not null references spec_revision,
  code            text not null check (length(code) between 1 and 60),
  name            text not null,
  ordinal         integer not null,
  place_code      text not null,
  kind            text not null check (kind in ('length', 'torque', 'pressure', 'force', 'angle', 'volume', 'ratio', 'temperature')),
  unit            text not null,
  decimals        integer not null check (decimals between 0 and 6),
  method          text not null check (method in ('single', 'maximum', 'minimum', 'range', 'mean', 'size', 'out-of-round', 'taper', 'difference', 'interval', 'felt')),
  bore_rule       text check (bore_rule in ('per-level', 'extremes')),
  readings_of     text,
  minuend         text,
  subtrahend      text,
  decision_rule   text not null default 'iso-14253-1-2017' check (decision_rule in ('iso-14253-1-2017', 'iso-14253-1-1998', 'simple')),
  inside          boolean not null default true,
  nominal         bigint,
  plausible_span  bigint check (plausible_span > 0),
  instrument_kind text not null default '',
  caution         text not null default '',
  source          text not null default '',
  page            text not null default '',
  unique (revision_id, code),
  check ((method = 'difference') = (minuend is not null and subtrahend is not null)),
  check (plausible_span is null or nominal is not null)
);

comment on column spec_dimension.plausible_span is 'a reading further than this from nominal is asked about at once';

create table spec_position (
  id           uuid primary key,
  dimension_id uuid not null references spec_dimension,
  code         text not null,
  label        text not null,
  ordinal      integer not null,
  level        integer check (level > 0),
  axis         text check (length(axis) between 1 and 20),
  height_nm    bigint,
  unique (dimension_id, code)
);

create table spec_limit (
  id            uuid primary key,
  dimension_id  uuid not null references spec_dimension,
  size_class    text not null default 'standard',
  standard_low  bigint,
  standard_high bigint,
  service_low   bigint,
  service_high  bigint,
  unique (dimension_id, size_class),
  check (standard_low is null or standard_high is null or standard_low <= standard_high),
  check (service_low is null or service_high is null or service_low <= service_high)
);

create table spec_fastener_set (
  id             uuid primary key,
  revision_id    uuid not null references spec_revision,
  code           text not null,
  name           text not null,
  thread         text not null,
  property_class text not null default '',
  condition      text not null check (condition in ('dry', 'oiled', 'locking compound')),
  tool           text not null default '',
  reuse          text not null check (reuse in ('reuse', 'inspect', 'one-time')),
  order_is_makers boolean not null default true,
  unit           text not null default 'N.m',
  source         text not null default '',
  page           text not null default '',
  unique (revision_id, code)
);

create table spec_fastener (
  id     uuid primary key,
  set_id uuid not null references spec_fastener_set,
  number integer not null check (number > 0),
  x_nm   bigint not null,
  y_nm   bigint not null,
  unique (set_id, number)
);
comment on column spec_fastener.number is 'place in the tightening order';

create table spec_fastener_stage (
  id             uuid primary key,
  set_id         uuid not null references spec_fastener_set,
  ordinal        integer not null check (ordinal > 0),
  torque_unm     bigint check (torque_unm > 0),
  angle_udeg     bigint check (angle_udeg > 0 and angle_udeg <= 360000000),
  unique (set_id, ordinal),
  check (num_nonnulls(torque_unm, angle_udeg) = 1)
);

create table spec_ring (
  id          uuid primary key,
  revision_id uuid not null references spec_revision,
  code        text not null,
  name        text not null,
  ordinal     integer not null,
  angle_udeg  bigint not null check (angle_udeg >= 0 and angle_udeg < 360000000),
  unique (revision_id, code)
);
comment on column spec_ring.angle_udeg is 'clockwise from the arrow on the crown, seen from above';

create table spec_ring_zone (
  id          uuid primary key,
  revision_id uuid not null references spec_revision,
  from_udeg   bigint not null check (from_udeg >= 0 and from_udeg < 360000000),
  to_udeg     bigint not null check (to_udeg >= 0 and to_udeg < 360000000),
  reason      text not null
);

create table spec_valve (
  id               uuid primary key,
  revision_id      uuid not null references spec_revision,
  code             text not null,
  name             text not null,
  side             text not null check (side in ('intake', 'exhaust')),
  ordinal          integer not null,
  dimension_code   text not null,
  wanted_nm        bigint not null check (wanted_nm > 0),
  adjuster         text not null check (adjuster in ('shim under bucket', 'shim on bucket', 'screw')),
  shim_diameter_nm bigint check (shim_diameter_nm > 0),
  shim_low_nm      bigint,
  shim_high_nm     bigint,
  screw_pitch_nm   bigint check (screw_pitch_nm > 0),
  unique (revision_id, code)
);

create table spec_proof (
  id             uuid primary key,
  revision_id    uuid not null references spec_revision,
  code           text not null,
  name           text not null,
  ordinal        integer not null,
  dimension_code text,
  words          text not null,
  caution        text not null default '',
  unique (revision_id, code)
);

create function keep_published_revision() returns trigger language plpgsql as $$
begin
  if old.published_at is not null then
    raise exception 'revision % is published and never changes', old.number using errcode = 'CH002', table = 'spec_revision';
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before update or delete on spec_revision for each row execute function keep_published_revision();

-- Children of a published revision: told by their revision_id.
create function keep_published_part() returns trigger language plpgsql as $$
declare ids uuid[];
begin
  ids := array_remove(array[case when tg_op <> 'INSERT' then old.revision_id end, case when tg_op <> 'DELETE' then new.revision_id end], null);
  if exists (select from spec_revision where id = any (ids) and published_at is not null) then
    raise exception 'the revision of this % is published and never changes', tg_table_name using errcode = 'CH002', table = tg_table_name;
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before insert or update or delete on spec_place for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_dimension for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_fastener_set for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_ring for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_ring_zone for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_valve for each row execute function keep_published_part();
create trigger keep_published before insert or update or delete on spec_proof for each row execute function keep_published_part();

-- Grandchildren, told by their dimension or fastener set.
create function keep_published_dimension() returns trigger language plpgsql as $$
declare ids uuid[];
begin
  ids := array_remove(array[case when tg_op <> 'INSERT' then old.dimension_id end, case when tg_op <> 'DELETE' then new.dimension_id end], null);
  if exists (select from spec_dimension d join spec_revision r on r.id = d.revision_id where d.id = any (ids) and r.published_at is not null) then
    raise exception 'the revision of this % is published and never changes', tg_table_name using errcode = 'CH002', table = tg_table_name;
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before insert or update or delete on spec_position for each row execute function keep_published_dimension();
create trigger keep_published before insert or update or delete on spec_limit for each row execute function keep_published_dimension();

create function keep_published_fastener() returns trigger language plpgsql as $$
declare ids uuid[];
begin
  ids := array_remove(array[case when tg_op <> 'INSERT' then old.set_id end, case when tg_op <> 'DELETE' then new.set_id end], null);
  if exists (select from spec_fastener_set s join spec_revision r on r.id = s.revision_id where s.id = any (ids) and r.published_at is not null) then
    raise exception 'the revision of this % is published and never changes', tg_table_name using errcode = 'CH002', table = tg_table_name;
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before insert or update or delete on spec_fastener for each row execute function keep_published_fastener();
create trigger keep_published before insert or update or delete on spec_fastener_stage for each row execute function keep_published_fastener();
