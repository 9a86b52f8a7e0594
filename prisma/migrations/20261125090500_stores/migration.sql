-- Stores: an append-only ledger, balances kept from it in the same transaction, demands and their reservations.

create table part (
  id            uuid primary key,
  number        text not null unique check (length(number) between 1 and 40),
  name          text not null check (length(name) between 1 and 120),
  family_id     uuid references family,
  place_code    text,
  size_class    text,
  grade         text not null default '',
  shim_nm       bigint check (shim_nm > 0),
  shim_diameter_nm bigint check (shim_diameter_nm > 0),
  one_time      boolean not null default false,
  price_minor   bigint not null default 0 check (price_minor >= 0),
  reorder_point integer not null default 0 check (reorder_point >= 0),
  superseded_by_id uuid references part,
  retired_at    timestamptz
);
create index part_family on part (family_id);
create index part_shim on part (shim_diameter_nm, shim_nm) where shim_nm is not null;

-- Taking one part off or renewing it asks for its companions too (circlips with a piston).
create table part_companion (
  part_id      uuid not null references part,
  companion_id uuid not null references part,
  quantity     integer not null check (quantity > 0),
  primary key (part_id, companion_id),
  check (part_id <> companion_id)
);

create table bin (
  id         uuid primary key,
  code       text not null unique check (length(code) between 1 and 20),
  walk_order integer not null,
  closed_at  timestamptz
);

create table stock_lot (
  id          uuid primary key,
  part_id     uuid not null references part,
  bin_id      uuid not null references bin,
  code        text not null default '',
  shim_nm     bigint check (shim_nm > 0),
  on_hand     integer not null default 0,
  reserved    integer not null default 0,
  value_minor bigint not null default 0 check (value_minor >= 0),
  received_at timestamptz not null default clock_timestamp(),
  constraint stock_lot_on_hand_not_negative check (on_hand >= 0),
  constraint stock_lot_reserved_not_negative check (reserved >= 0),
  constraint stock_lot_available_not_negative check (reserved <= on_hand)
);
create index stock_lot_part on stock_lot (part_id, received_at, id) where on_hand > 0;
create index stock_lot_bin on stock_lot (bin_id);
comment on column stock_lot.shim_nm is 'measured thickness of this lot, where it was measured';

create table kit (
  id        uuid primary key,
  family_id uuid not null references family,
  name      text not null,
  unique (family_id, name)
);

create table kit_line (
  kit_id   uuid not null references kit,
  part_id  uuid not null references part,
  quantity integer not null check (quantity > 0),
  primary key (kit_id, part_id)
);

-- What a job needs. Each wanted piece is in exactly one of the five states.
create table demand_line (
  id          uuid primary key,
  job_id      uuid not null references job,
  part_id     uuid not null references part,
  kit_id      uuid references kit,
  wanted      integer not null check (wanted > 0),
  reserved    integer not null default 0 check (reserved >= 0),
  short       integer not null default 0 check (short >= 0),
  issued      integer not null default 0 check (issued >= 0),
  cancelled   integer not null default 0 check (cancelled >= 0),
  not_asked   integer not null check (not_asked >= 0),
  short_since timestamptz,
  added_by_id uuid not null references person,
  added_at    timestamptz not null default clock_timestamp(),
  unique (job_id, part_id),
  constraint demand_line_sum check (wanted = reserved + short + issued + cancelled + not_asked),
  check ((short > 0) = (short_since is not null))
);
create index demand_line_short on demand_line (part_id) where short > 0;

-- Why it is wanted; one line may have several reasons, and goes when the last one does.
create table demand_reason (
  id             uuid primary key,
  demand_line_id uuid not null references demand_line,
  quantity       integer not null check (quantity > 0),
  kit_id         uuid references kit,
  obligation_id  uuid references obligation,
  parent_part_id uuid references part,
  words          text not null,
  added_at       timestamptz not null default clock_timestamp(),
  withdrawn_at   timestamptz
);
create index demand_reason_line on demand_reason (demand_line_id);

create table reservation (
  id             uuid primary key,
  demand_line_id uuid not null references demand_line,
  lot_id         uuid not null references stock_lot,
  quantity       integer not null check (quantity >= 0),
  expires_at     timestamptz,
  reserved_at    timestamptz not null default clock_timestamp(),
  unique (demand_line_id, lot_id)
);
create index reservation_lot on reservation (lot_id) where quantity > 0;

create table stock_movement (
  id             uuid primary key,
  lot_id         uuid not null references stock_lot,
  act            text not null check (act in ('receive', 'reserve', 'release', 'issue', 'return', 'adjust', 'scrap', 'transfer out', 'transfer in')),
  on_hand_change integer not null,
  reserved_change integer not null,
  value_change   bigint not null default 0,
  demand_line_id uuid references demand_line,
  job_id         uuid references job,
  reason         text not null default '',
  moved_by_id    uuid not null references person,
  moved_at       timestamptz not null default clock_timestamp(),
  check (on_hand_change <> 0 or reserved_change <> 0),
  check (case act
    when 'receive' then on_hand_change > 0 and reserved_change = 0
    when 'reserve' then on_hand_change = 0 and reserved_change > 0
    when 'release' then on_hand_change = 0 and reserved_change < 0
    when 'issue'   then on_hand_change < 0 and reserved_change in (0, on_hand_change)
    when 'return'  then on_hand_change > 0 and reserved_change = 0
    when 'adjust'  then on_hand_change <> 0 and reserved_change = 0 and length(reason) > 0
    when 'scrap'   then on_hand_change < 0 and reserved_change = 0 and length(reason) > 0
    when 'transfer out' then on_hand_change < 0 and reserved_change = 0
    else on_hand_change > 0 and reserved_change = 0 end)
);
create index stock_movement_lot on stock_movement (lot_id, moved_at);
create index stock_movement_job on stock_movement (job_id) where job_id is not null;
create trigger append_only before update or delete on stock_movement for each row execute function refuse_change();

-- Balances come from the ledger alone: a statement that sets them without a movement is refused by stock_lot_balances.
create function keep_lot_balances() returns trigger language plpgsql as $$
begin
  perform set_config('crosshatch.ledger', 'on', true);
  update stock_lot l set
    on_hand     = l.on_hand + m.on_hand,
    reserved    = l.reserved + m.reserved,
    value_minor = l.value_minor + m.value
  from (select lot_id, sum(on_hand_change)::int as on_hand, sum(reserved_change)::int as reserved, sum(value_change)::bigint as value
        from moved group by lot_id) m
  where l.id = m.lot_id;
  perform set_config('crosshatch.ledger', 'off', true);
  return null;
end $$;
create trigger keep_balances after insert on stock_movement referencing new table as moved
  for each statement execute function keep_lot_balances();

create function refuse_bare_balance() returns trigger language plpgsql as $$
begin
  if (tg_op = 'INSERT' and (new.on_hand, new.reserved, new.value_minor) is distinct from (0, 0, 0::bigint))
     or (tg_op = 'UPDATE' and (new.on_hand, new.reserved, new.value_minor) is distinct from (old.on_hand, old.reserved, old.value_minor)
         and coalesce(current_setting('crosshatch.ledger', true), 'off') <> 'on') then
    raise exception 'stock changes by a movement only' using errcode = 'CH007', table = 'stock_lot';
  end if;
  return new;
end $$;
create trigger stock_lot_balances before insert or update on stock_lot for each row execute function refuse_bare_balance();

create table purchase_line (
  id           uuid primary key,
  vendor_id    uuid not null references vendor,
  part_id      uuid not null references part,
  job_id       uuid references job,
  quantity     integer not null check (quantity > 0),
  received     integer not null default 0 check (received between 0 and quantity),
  promised_on  date,
  ordered_by_id uuid not null references person,
  ordered_at   timestamptz not null default clock_timestamp()
);
create index purchase_line_coming on purchase_line (part_id) where received < quantity;
