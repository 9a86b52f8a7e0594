-- What was counted otherwise than the tally as something changed hands without a giver who waits for the count: taken from
-- a bay, left in one, moved by a lead, sent to a vendor or taken back. A first count that differs is refused but stays here,
-- with its obligation; so does what was counted after it while that obligation stands, agreeing or not.
create table moving_count (
  id            uuid primary key,
  job_id        uuid not null references job,
  act           text not null check (act in ('take', 'leave', 'move', 'send out', 'back')),
  tray_id       uuid references tray,
  piece_id      uuid not null references piece,
  expected      integer not null check (expected >= 0),
  counted       integer not null check (counted >= 0),
  obligation_id uuid references obligation,
  counted_by_id uuid not null references person,
  counted_at    timestamptz not null default clock_timestamp(),
  constraint moving_count_difference_has_its_obligation check (counted = expected or obligation_id is not null)
);
create index moving_count_of_piece on moving_count (piece_id, counted_at);
create index moving_count_of_obligation on moving_count (obligation_id) where obligation_id is not null;
comment on column moving_count.tray_id is 'none: beside the engine, in no tray';
create trigger append_only before update or delete on moving_count for each row execute function refuse_change();
