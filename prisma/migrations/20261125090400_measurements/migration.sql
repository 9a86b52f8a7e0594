-- Instruments, readings as they were keyed, findings as they were judged, and what they oblige somebody to do.

create table instrument (
  id                 uuid primary key,
  code               text not null unique check (length(code) between 1 and 20),
  name               text not null,
  instrument_kind    text not null,
  kind               text not null check (kind in ('length', 'torque', 'pressure', 'force', 'angle', 'volume', 'ratio', 'temperature')),
  unit               text not null,
  decimals           integer not null check (decimals between 0 and 6),
  range_low          bigint not null,
  range_high         bigint not null,
  resolution         bigint not null check (resolution > 0),
  mpe                bigint not null check (mpe >= 0),
  repeatability      bigint check (repeatability >= 0),
  repeatability_dof  integer check (repeatability_dof > 0),
  local_u            bigint check (local_u >= 0),
  alpha_ppb          integer not null default 11500 check (alpha_ppb >= 0),
  alpha_u_ppb        integer not null default 1000 check (alpha_u_ppb >= 0),
  calibrated_on      date,
  calibration_due_on date,
  retired_at         timestamptz,
  check (range_low < range_high)
);
comment on column instrument.local_u is 'standard uncertainty of its error over a short travel, where it is known';
comment on column instrument.repeatability is 'standard deviation of one reading from its own study, base unit';

create table instrument_blade (
  id            uuid primary key,
  instrument_id uuid not null references instrument,
  thickness_nm  bigint not null check (thickness_nm > 0),
  tolerance_nm  bigint not null check (tolerance_nm >= 0),
  unique (instrument_id, thickness_nm)
);

create table instrument_check (
  id            uuid primary key,
  instrument_id uuid not null references instrument,
  zero_error    bigint not null,
  master        text not null default '',
  master_u      bigint not null default 0 check (master_u >= 0),
  checked_by_id uuid not null references person,
  checked_at    timestamptz not null default clock_timestamp()
);
create index instrument_check_latest on instrument_check (instrument_id, checked_at desc);
create trigger append_only before update or delete on instrument_check for each row execute function refuse_change();

create table reading (
  id              uuid primary key,
  job_id          uuid not null references job,
  engine_id       uuid not null references engine,
  fitted_part_id  uuid references fitted_part,
  dimension_code  text not null,
  position_code   text not null,
  repeat          integer not null default 1 check (repeat between 1 and 50),
  round           text not null check (round in ('as received', 'after work', 'as built')),
  keyed_text      text not null check (length(keyed_text) between 1 and 60),
  keyed_unit      text not null,
  kind            text not null check (kind in ('length', 'torque', 'pressure', 'force', 'angle', 'volume', 'ratio', 'temperature')),
  observation     text not null check (observation in ('value', 'interval', 'felt')),
  value_low       bigint not null,
  value_high      bigint,
  go_stack        bigint[] not null default '{}',
  no_go_stack     bigint[] not null default '{}',
  rounded         boolean not null default false,
  instrument_id   uuid references instrument,
  check_id        uuid references instrument_check,
  part_mk         integer check (part_mk between 200000 and 450000),
  instrument_mk   integer check (instrument_mk between 200000 and 450000),
  temperature_u_mk integer check (temperature_u_mk between 0 and 20000),
  confirm_reason  text not null default '',
  read_by_id      uuid not null references person,
  read_at         timestamptz not null,
  recorded_at     timestamptz not null default clock_timestamp(),
  check (case observation
    when 'value' then value_high = value_low
    when 'felt' then value_high = value_low and value_low in (0, 1)
    else value_high is null or value_high > value_low end),
  check (instrument_id is not null or observation = 'felt'),
  check (num_nonnulls(part_mk, instrument_mk, temperature_u_mk) in (0, 3))
);
comment on column reading.value_high is 'equals value_low for a value; the upper end of an interval, null when there is none; felt: 1 play, 0 none';
comment on column reading.go_stack is 'the blades that went in together, nm; empty when one blade did';
create index reading_job on reading (job_id, dimension_code, round);
create index reading_engine on reading (engine_id, dimension_code, read_at);
create trigger append_only before update or delete on reading for each row execute function refuse_change();

create table reading_strike (
  reading_id   uuid primary key references reading,
  reason       text not null check (length(reason) > 0),
  struck_by_id uuid not null references person,
  struck_at    timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on reading_strike for each row execute function refuse_change();

create table finding (
  id               uuid primary key,
  job_id           uuid not null references job,
  engine_id        uuid not null references engine,
  fitted_part_id   uuid references fitted_part,
  revision_id      uuid not null references spec_revision,
  dimension_code   text not null,
  dimension_name   text not null,
  round            text not null check (round in ('as received', 'after work', 'as built')),
  kind             text not null,
  unit             text not null,
  decimals         integer not null,
  value_type       text not null check (value_type in ('point', 'interval', 'span', 'felt')),
  value_low        double precision not null,
  value_high       double precision,
  u                double precision not null check (u >= 0),
  dof              double precision,
  guard            bigint not null check (guard >= 0),
  rule             text not null,
  verdict          text not null check (verdict in ('within standard', 'within service limit', 'past the limit', 'undecided')),
  p_past_low       double precision not null check (p_past_low between 0 and 1),
  p_past_high      double precision not null check (p_past_high between p_past_low and 1),
  margin           double precision,
  nearest_side     text check (nearest_side in ('lower', 'upper')),
  nearest_limit    bigint,
  inside           boolean not null,
  limits           jsonb not null,
  budget           jsonb not null,
  warnings         jsonb not null default '[]',
  instruments      jsonb not null,
  running_minutes  integer not null,
  part_minutes     integer,
  formula_version  integer not null,
  supersedes_id    uuid unique references finding,
  judged_by_id     uuid not null references person,
  judged_at        timestamptz not null default clock_timestamp()
);
comment on column finding.value_low is 'worked out and corrected, never rounded, base unit of kind; felt: 1 play, 0 none';
comment on column finding.margin is 'room left to the nearest limit at worst; negative: past it';
create index finding_job on finding (job_id, dimension_code, round);
create index finding_engine on finding (engine_id, dimension_code, judged_at);
create trigger append_only before update or delete on finding for each row execute function refuse_change();

create table finding_reading (
  finding_id uuid not null references finding,
  reading_id uuid not null references reading,
  primary key (finding_id, reading_id)
);
create index finding_reading_reading on finding_reading (reading_id);
create trigger append_only before update or delete on finding_reading for each row execute function refuse_change();

create table obligation (
  id            uuid primary key,
  engine_id     uuid not null references engine,
  job_id        uuid not null references job,
  words         text not null check (length(words) between 1 and 500),
  inside        boolean not null,
  finding_id    uuid references finding,
  handover_line_id uuid references handover_line,
  piece_id      uuid references piece,
  raised_by_id  uuid references person,
  opened_at     timestamptz not null default clock_timestamp(),
  decided_at    timestamptz,
  discharged_at timestamptz,
  piece_movement_id uuid references piece_movement,
  check (piece_movement_id is null or piece_id is not null),
  constraint obligation_has_one_cause check (num_nonnulls(finding_id, handover_line_id, piece_id, raised_by_id) = 1)
);
create index obligation_open on obligation (job_id) where discharged_at is null;
create index obligation_job on obligation (job_id);
create unique index obligation_one_a_finding on obligation (finding_id) where finding_id is not null;
create unique index obligation_one_a_line on obligation (handover_line_id) where handover_line_id is not null;
comment on column obligation.piece_movement_id is 'the count or suspicion on the tally that raised it; none when a tray was counted';
comment on column obligation.decided_at is 'kept by the trigger on obligation_act, as is discharged_at';

create table disposition (
  id           uuid primary key,
  job_id       uuid not null references job,
  kind         text not null check (kind in ('measure again', 'reuse', 'hone', 'bore', 'replate', 'resurface', 'grind', 'shim', 'replace', 'send out', 'search', 'other')),
  size_class   text,
  reason       text not null default '',
  decided_by_id uuid not null references person,
  decided_at   timestamptz not null default clock_timestamp(),
  check (kind not in ('reuse', 'other') or length(reason) > 0)
);
create trigger append_only before update or delete on disposition for each row execute function refuse_change();

create table obligation_act (
  id             uuid primary key,
  obligation_id  uuid not null references obligation,
  act            text not null check (act in ('decided', 'discharged', 'reopened')),
  disposition_id uuid references disposition,
  finding_id     uuid references finding,
  reason         text not null default '',
  acted_by_id    uuid not null references person,
  acted_at       timestamptz not null default clock_timestamp(),
  check (act <> 'decided' or disposition_id is not null),
  check (act <> 'discharged' or finding_id is not null or length(reason) > 0)
);
create index obligation_act_obligation on obligation_act (obligation_id, acted_at);
create trigger append_only before update or delete on obligation_act for each row execute function refuse_change();

create function keep_obligation_standing() returns trigger language plpgsql as $$
begin
  update obligation set
    decided_at    = case new.act when 'decided' then new.acted_at when 'reopened' then null else decided_at end,
    discharged_at = case new.act when 'discharged' then new.acted_at when 'reopened' then null else discharged_at end
  where id = new.obligation_id;
  return null;
end $$;
create trigger keep_standing after insert on obligation_act for each row execute function keep_obligation_standing();
