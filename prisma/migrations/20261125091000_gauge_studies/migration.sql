-- Certificates of instruments, and studies of what the shop's own people and gauges scatter.

create table instrument_calibration (
  id             uuid primary key,
  instrument_id  uuid not null references instrument,
  calibrated_on  date not null,
  due_on         date,
  mpe            bigint not null check (mpe >= 0),
  certificate    text not null default '' check (length(certificate) <= 120),
  recorded_by_id uuid not null references person,
  recorded_at    timestamptz not null default clock_timestamp(),
  check (due_on > calibrated_on)
);
create index instrument_calibration_of on instrument_calibration (instrument_id, calibrated_on desc);
create trigger append_only before update or delete on instrument_calibration for each row execute function refuse_change();

-- The register says what the newest certificate says, whichever was written down last.
create function calibration_now() returns trigger language plpgsql as $$
begin
  update instrument set calibrated_on = new.calibrated_on, calibration_due_on = new.due_on, mpe = new.mpe
  where id = new.instrument_id and (calibrated_on is null or calibrated_on <= new.calibrated_on);
  return new;
end $$;
create trigger calibration_now after insert on instrument_calibration for each row execute function calibration_now();

create table gauge_study (
  id            uuid primary key,
  instrument_id uuid not null references instrument,
  name          text not null check (length(name) between 1 and 120),
  parts         integer not null check (parts between 2 and 20),
  trials        integer not null check (trials between 2 and 10),
  tolerance     bigint check (tolerance > 0),
  started_by_id uuid not null references person,
  started_at    timestamptz not null default clock_timestamp(),
  closed_by_id  uuid references person,
  closed_at     timestamptz,
  check ((closed_at is null) = (closed_by_id is null))
);
comment on column gauge_study.tolerance is 'width of the limits it shall serve, base unit; none: judged by the spread of the parts alone';
create index gauge_study_of on gauge_study (instrument_id, started_at desc);

create table gauge_study_person (
  id        uuid primary key,
  study_id  uuid not null references gauge_study,
  person_id uuid not null references person,
  ordinal   integer not null check (ordinal between 1 and 6),
  unique (study_id, person_id),
  unique (study_id, ordinal)
);

-- A correction is a reading that takes an earlier one's place; each can be replaced once.
create table gauge_study_reading (
  id              uuid primary key,
  study_person_id uuid not null references gauge_study_person,
  part            integer not null check (part >= 1),
  trial           integer not null check (trial >= 1),
  value           bigint not null,
  keyed_text      text not null check (length(keyed_text) between 1 and 60),
  keyed_unit      text not null,
  replaces_id     uuid unique references gauge_study_reading,
  reason          text not null default '' check (length(reason) <= 300),
  keyed_by_id     uuid not null references person,
  keyed_at        timestamptz not null default clock_timestamp(),
  check ((replaces_id is null) = (reason = ''))
);
create unique index gauge_study_reading_first on gauge_study_reading (study_person_id, part, trial) where replaces_id is null;
create trigger append_only before update or delete on gauge_study_reading for each row execute function refuse_change();

create function gauge_study_takes() returns trigger language plpgsql as $$
declare study gauge_study;
begin
  select s.* into study from gauge_study s join gauge_study_person p on p.study_id = s.id
  where p.id = new.study_person_id for share of s;
  if study.closed_at <= new.keyed_at then
    raise exception 'This study is closed: what was read in it stays as it is.' using errcode = 'CH002';
  end if;
  if new.part > study.parts or new.trial > study.trials then
    raise exception 'This study has % parts and % trials.', study.parts, study.trials using errcode = 'CH002';
  end if;
  if new.replaces_id is not null and not exists (
    select from gauge_study_reading r where r.id = new.replaces_id
      and (r.study_person_id, r.part, r.trial) = (new.study_person_id, new.part, new.trial)
  ) then
    raise exception 'A correction takes the place of the same part, person and trial.' using errcode = 'CH002';
  end if;
  return new;
end $$;
create trigger gauge_study_takes before insert on gauge_study_reading for each row execute function gauge_study_takes();

create view gauge_study_standing as
  select p.study_id, p.person_id, r.* from gauge_study_reading r join gauge_study_person p on p.id = r.study_person_id
  where not exists (select from gauge_study_reading later where later.replaces_id = r.id);

-- What a study found becomes what the instrument is taken for, when a lead says so.
create table gauge_study_adoption (
  study_id            uuid primary key references gauge_study,
  repeatability       bigint not null check (repeatability > 0),
  degrees_of_freedom  integer not null check (degrees_of_freedom > 0),
  adopted_by_id       uuid not null references person,
  adopted_at          timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on gauge_study_adoption for each row execute function refuse_change();

create function repeatability_now() returns trigger language plpgsql as $$
begin
  update instrument set repeatability = new.repeatability, repeatability_dof = new.degrees_of_freedom
  where id = (select instrument_id from gauge_study where id = new.study_id);
  return new;
end $$;
create trigger repeatability_now after insert on gauge_study_adoption for each row execute function repeatability_now();
