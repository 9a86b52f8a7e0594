-- A pull through an adapter keeps what the wrench showed beside what the bolt got; ring gaps are signed off by a second
-- person; fasteners that were loosened are renewed or inspected by their rule.

alter table torque_pull
  add column shown_unm          bigint check (shown_unm > 0),
  add column wrench_length_nm   bigint check (wrench_length_nm > 0),
  add column adapter_length_nm  bigint check (adapter_length_nm > 0),
  add column adapter_angle_udeg bigint check (adapter_angle_udeg between 0 and 180000000),
  add constraint torque_pull_adapter_whole
    check (num_nonnulls(shown_unm, wrench_length_nm, adapter_length_nm, adapter_angle_udeg) in (0, 4)),
  add constraint torque_pull_adapter_of_torque check (shown_unm is null or torque_unm is not null);
comment on column torque_pull.shown_unm is 'what the wrench showed with an adapter on it; torque_unm is then what the bolt got';

create table ring_sign_off (
  placement_id uuid primary key references ring_placement,
  signed_by_id uuid not null references person,
  signed_at    timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on ring_sign_off for each row execute function refuse_change();

alter table part add column fastener_set text;
comment on column part.fastener_set is 'code of the fastener set on its family''s sheets that it is one fastener of';
create index part_fastener_set on part (family_id, fastener_set) where fastener_set is not null;

-- Once a set and opening when it is loosened; once a position when one was turned past yield and is taken out again.
create table fastener_renewal (
  id             uuid primary key,
  job_id         uuid not null references job,
  set_code       text not null,
  fastener       integer check (fastener > 0),
  demand_line_id uuid references demand_line,
  obligation_id  uuid references obligation,
  caused_by_id   uuid not null references person,
  caused_at      timestamptz not null default clock_timestamp(),
  check (num_nonnulls(demand_line_id, obligation_id) = 1)
);
create index fastener_renewal_job on fastener_renewal (job_id, set_code, caused_at);
create trigger append_only before update or delete on fastener_renewal for each row execute function refuse_change();
