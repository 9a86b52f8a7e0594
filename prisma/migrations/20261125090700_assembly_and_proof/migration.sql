-- Assembly facts: shims chosen, ring gaps placed, torque logged; proofs and sign-offs.

create table shim_choice (
  id            uuid primary key,
  job_id        uuid not null references job,
  valve_code    text not null,
  lash_low_nm   bigint not null check (lash_low_nm >= 0),
  lash_high_nm  bigint not null,
  fitted_nm     bigint not null check (fitted_nm > 0),
  wanted_low_nm bigint not null,
  wanted_high_nm bigint not null,
  chosen_nm     bigint not null check (chosen_nm > 0),
  then_low_nm   bigint not null,
  then_high_nm  bigint not null,
  lot_id        uuid references stock_lot,
  from_words    text not null,
  guaranteed    boolean not null,
  chosen_by_id  uuid not null references person,
  chosen_at     timestamptz not null default clock_timestamp(),
  check (lash_high_nm > lash_low_nm)
);
create index shim_choice_job on shim_choice (job_id, valve_code, chosen_at);
create trigger append_only before update or delete on shim_choice for each row execute function refuse_change();

create table ring_placement (
  id           uuid primary key,
  job_id       uuid not null references job,
  gaps         jsonb not null,
  faults       jsonb not null default '[]',
  marks_up     boolean not null,
  placed_by_id uuid not null references person,
  placed_at    timestamptz not null default clock_timestamp()
);
create index ring_placement_job on ring_placement (job_id, placed_at);
create trigger append_only before update or delete on ring_placement for each row execute function refuse_change();

create table torque_pull (
  id             uuid primary key,
  job_id         uuid not null references job,
  set_code       text not null,
  fastener       integer not null check (fastener > 0),
  stage          integer not null check (stage > 0),
  keyed_text     text not null,
  keyed_unit     text not null,
  torque_unm     bigint,
  angle_udeg     bigint,
  instrument_id  uuid references instrument,
  pulled_by_id   uuid not null references person,
  pulled_at      timestamptz not null default clock_timestamp(),
  check (num_nonnulls(torque_unm, angle_udeg) = 1)
);
create index torque_pull_job on torque_pull (job_id, set_code, stage, fastener);
create trigger append_only before update or delete on torque_pull for each row execute function refuse_change();

-- A pull stands once a fastener and stage; a mistaken one is struck with a reason, then it may be pulled again.
create table torque_strike (
  pull_id      uuid primary key references torque_pull,
  reason       text not null check (length(reason) > 0),
  struck_by_id uuid not null references person,
  struck_at    timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on torque_strike for each row execute function refuse_change();

create table proof (
  id           uuid primary key,
  job_id       uuid not null references job,
  proof_code   text not null,
  name         text not null,
  passed       boolean not null,
  words        text not null default '',
  finding_id   uuid references finding,
  proved_by_id uuid not null references person,
  proved_at    timestamptz not null default clock_timestamp()
);
create index proof_job on proof (job_id, proof_code, proved_at);
create trigger append_only before update or delete on proof for each row execute function refuse_change();

create table sign_off (
  id           uuid primary key,
  job_id       uuid not null references job,
  proof_id     uuid references proof,
  opening_id   uuid references opening,
  sheet_job_id uuid references job,
  words        text not null default '',
  signed_by_id uuid not null references person,
  signed_at    timestamptz not null default clock_timestamp(),
  check (num_nonnulls(proof_id, opening_id, sheet_job_id) = 1)
);
create index sign_off_job on sign_off (job_id);
create unique index sign_off_proof on sign_off (proof_id) where proof_id is not null;
create unique index sign_off_opening on sign_off (opening_id) where opening_id is not null;
create trigger append_only before update or delete on sign_off for each row execute function refuse_change();

-- What a lead let pass, by name and with a reason, although something spoke against it.
create table override (
  id            uuid primary key,
  job_id        uuid not null references job,
  gate          text not null check (gate in ('close the opening', 'hand back')),
  opening_id    uuid references opening,
  reasons       jsonb not null check (case when jsonb_typeof(reasons) = 'array' then jsonb_array_length(reasons) > 0 else false end),
  words         text not null check (length(trim(words)) > 0),
  overridden_by_id uuid not null references person,
  overridden_at timestamptz not null default clock_timestamp(),
  check ((gate = 'close the opening') = (opening_id is not null))
);
create unique index override_opening on override (opening_id) where opening_id is not null;
create trigger append_only before update or delete on override for each row execute function refuse_change();

create function override_by_lead() returns trigger language plpgsql as $$
begin
  if not exists (select from person_role where person_id = new.overridden_by_id and role = 'lead') then
    raise exception 'only a lead lets an engine pass over open reasons' using errcode = 'CH008', table = 'override';
  end if;
  if new.opening_id is not null
     and not exists (select from opening where id = new.opening_id and job_id = new.job_id and closed_at is null) then
    raise exception 'only an opening of this job that is still open is closed over open reasons' using errcode = 'CH002', table = 'override';
  end if;
  return new;
end $$;
create trigger by_lead before insert on override for each row execute function override_by_lead();
