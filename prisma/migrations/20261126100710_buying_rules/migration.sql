-- What suggestions of when and how many to buy assume: the shop's own figures, the newest holds, the older ones stay.
create table buying_rule (
  id              uuid primary key,
  service_permille integer not null check (service_permille between 500 and 999),
  order_minor     bigint not null check (order_minor between 0 and 100000000),
  holding_permille integer not null check (holding_permille between 1 and 1000),
  lead_days       integer not null check (lead_days between 1 and 365),
  history_days    integer not null check (history_days between 28 and 1095),
  reason          text not null check (reason ~ '\S' and length(reason) <= 300),
  set_by_id       uuid not null references person,
  set_at          timestamptz not null default clock_timestamp()
);
create index buying_rule_newest on buying_rule (set_at desc);
create trigger append_only before update or delete on buying_rule for each row execute function refuse_change();
