-- A kept finding drawn many times by chance, and what was said to it at the bench when it was judged.

alter table finding add column cross_checks jsonb not null default '[]';
comment on column finding.cross_checks is 'what its readings were held against when it was judged, in words, and whether they agreed';

create or replace view finding_standing as
  select f.* from finding f
  where not exists (select from finding n where n.supersedes_id = f.id)
    and not exists (select from finding_reading r join reading_strike s on s.reading_id = r.reading_id where r.finding_id = f.id);

create table finding_simulation (
  id              uuid primary key,
  finding_id      uuid not null references finding,
  trials          integer not null check (trials between 1000 and 1000000),
  seed            bigint not null check (seed between 0 and 4294967295),
  side            text not null check (side in ('lower', 'upper')),
  mean            double precision not null,
  u               double precision not null check (u >= 0),
  symmetric_low   double precision not null,
  symmetric_high  double precision not null check (symmetric_high >= symmetric_low),
  shortest_low    double precision not null,
  shortest_high   double precision not null check (shortest_high >= shortest_low),
  p_past          double precision check (p_past between 0 and 1),
  histogram       jsonb not null,
  from_register   text[] not null default '{}',
  formula_version integer not null,
  made_by_id      uuid not null references person,
  made_at         timestamptz not null default clock_timestamp()
);
comment on column finding_simulation.side is 'which end of a result that varies from place to place was drawn: what lies against that limit';
comment on column finding_simulation.mean is 'never rounded, base unit of the finding, as are the other figures; intervals hold 95 of 100 trials';
comment on column finding_simulation.from_register is 'gauges of which the finding had kept too little, so that the register of the day stood in';
create index finding_simulation_finding on finding_simulation (finding_id, made_at);
create trigger append_only before update or delete on finding_simulation for each row execute function refuse_change();
