-- The counter: quotes and the owner's yes. Money is whole minor units of the shop's currency.

create table quote (
  id          uuid primary key,
  job_id      uuid not null references job,
  number      integer not null check (number > 0),
  currency    char(3) not null,
  total_minor bigint not null check (total_minor >= 0),
  note        text not null default '',
  sent_by_id  uuid not null references person,
  sent_at     timestamptz not null default clock_timestamp(),
  unique (job_id, number)
);
create trigger append_only before update or delete on quote for each row execute function refuse_change();

create table quote_line (
  id            uuid primary key,
  quote_id      uuid not null references quote,
  ordinal       integer not null,
  kind          text not null check (kind in ('part', 'labour', 'outside work')),
  words         text not null check (length(words) between 1 and 300),
  quantity      integer not null check (quantity > 0),
  each_minor    bigint not null check (each_minor >= 0),
  amount_minor  bigint not null,
  part_id       uuid references part,
  obligation_id uuid references obligation,
  check (amount_minor = quantity * each_minor),
  unique (quote_id, ordinal)
);
create trigger append_only before update or delete on quote_line for each row execute function refuse_change();

create table quote_answer (
  quote_id    uuid primary key references quote,
  yes         boolean not null,
  sum_minor   bigint not null check (sum_minor >= 0),
  said_by     text not null check (length(said_by) between 1 and 120),
  how         text not null check (how in ('at the counter', 'by telephone', 'in writing')),
  note        text not null default '',
  taken_by_id uuid not null references person,
  taken_at    timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on quote_answer for each row execute function refuse_change();
