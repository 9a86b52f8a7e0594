-- A shim is wanted for a valve, and the shim that is in a valve is measured.

alter table demand_reason add column valve_code text;
comment on column demand_reason.valve_code is 'the valve that a shim is wanted for: called off again when another is chosen before it is handed out';

create table fitted_shim (
  id             uuid primary key,
  job_id         uuid not null references job,
  valve_code     text not null,
  thickness_nm   bigint not null check (thickness_nm > 0),
  uncertainty_nm bigint not null check (uncertainty_nm >= 0),
  printed_nm     bigint check (printed_nm > 0),
  measured_by_id uuid not null references person,
  measured_at    timestamptz not null default clock_timestamp()
);
create index fitted_shim_job on fitted_shim (job_id, valve_code, measured_at);
create trigger append_only before update or delete on fitted_shim for each row execute function refuse_change();
comment on column fitted_shim.printed_nm is 'what is printed on it, kept apart: it wears off, and the shim wears down';
