-- What was reckoned at the loose bench and kept with a job: as given, as worked out here, by whom. Never edited.

create table worked_figure (
  id         uuid primary key,
  job_id     uuid not null references job,
  kind       text not null check (kind ~ '^[a-z]+(-[a-z]+)*$' and length(kind) <= 40),
  given      jsonb not null check (jsonb_typeof(given) = 'object'),
  figures    jsonb not null check (jsonb_typeof(figures) = 'object'),
  compared   jsonb not null default '[]' check (jsonb_typeof(compared) = 'array'),
  cautions   jsonb not null default '[]' check (jsonb_typeof(cautions) = 'array'),
  note       text not null default '' check (length(note) <= 300),
  kept_by_id uuid not null references person,
  kept_at    timestamptz not null default clock_timestamp()
);
comment on column worked_figure.compared is 'a line for each size, where several were compared';
create index worked_figure_job on worked_figure (job_id, kept_at);
create trigger append_only before update or delete on worked_figure for each row execute function refuse_change();

create table worked_figure_strike (
  worked_figure_id uuid primary key references worked_figure,
  reason           text not null check (length(reason) between 1 and 300),
  struck_by_id     uuid not null references person,
  struck_at        timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on worked_figure_strike for each row execute function refuse_change();
