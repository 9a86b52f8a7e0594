-- What stock is worth is kept by part, not by lot: the moving average is that of all pieces of a part, in whichever lot
-- they lie. PostgreSQL works it out under the part's row lock, in the movement's own statement.

alter table part
  add column unit text not null default 'piece' check (unit in ('piece', 'pair', 'set', 'ml', 'g', 'mm')),
  add column by_serial boolean not null default false;
comment on column part.unit is 'what one of it is; stock is kept in whole ones of it';

create table part_value (
  part_id     uuid primary key references part,
  on_hand     integer not null default 0,
  value_minor bigint not null default 0,
  constraint part_value_on_hand_not_negative check (on_hand >= 0),
  constraint part_value_not_negative check (value_minor >= 0),
  constraint part_value_of_nothing check (on_hand > 0 or value_minor = 0)
);
comment on table part_value is 'kept by the movements of a part''s lots; the average is value_minor / on_hand';

insert into part_value (part_id, on_hand, value_minor)
  select part_id, sum(on_hand)::int, sum(value_minor)::bigint from stock_lot group by part_id;

drop trigger stock_lot_balances on stock_lot;
alter table stock_lot drop column value_minor;
alter table stock_lot
  add column serial text check (length(serial) between 1 and 60),
  add column used boolean not null default false,
  add column condition text not null default '' check (length(condition) <= 300),
  add constraint stock_lot_used_is_measured check (not used or condition ~ '\S'),
  add constraint stock_lot_serial_is_one check (serial is null or on_hand <= 1);
create unique index stock_lot_one_of_serial on stock_lot (part_id, serial) where serial is not null and on_hand > 0;
comment on column stock_lot.condition is 'of used parts: what was measured on them, in words';

-- A part's whole life is read page by page, however many lots it had.
alter table stock_movement add column part_id uuid references part;
alter table stock_movement disable trigger append_only;
update stock_movement m set part_id = l.part_id from stock_lot l where l.id = m.lot_id;
alter table stock_movement enable trigger append_only;
alter table stock_movement alter column part_id set not null;
create index stock_movement_part on stock_movement (part_id, moved_at, id);

-- Goods in bring their cost. Goods out, and what a count finds, go at the average: value × count / on hand, rounded half
-- up to a minor unit; the last one out takes what is left, so that an empty shelf is worth nothing. A piece carried to
-- another bin changes nothing.
create function value_movement() returns trigger language plpgsql as $$
declare
  of_part uuid;
  kept    part_value;
begin
  select part_id into of_part from stock_lot where id = new.lot_id;
  new.part_id := of_part;
  if new.on_hand_change = 0 or new.act in ('transfer out', 'transfer in') then
    new.value_change := 0;
    return new;
  end if;
  insert into part_value (part_id) values (of_part) on conflict do nothing;
  select * into kept from part_value where part_id = of_part for no key update;
  if new.on_hand_change < 0 then
    new.value_change := case when kept.on_hand + new.on_hand_change <= 0 then -kept.value_minor
      else -div(2 * kept.value_minor::numeric * -new.on_hand_change + kept.on_hand, 2 * kept.on_hand::numeric) end;
  elsif new.act = 'adjust' and kept.on_hand > 0 then
    new.value_change := div(2 * kept.value_minor::numeric * new.on_hand_change + kept.on_hand, 2 * kept.on_hand::numeric);
  end if;
  update part_value set on_hand = kept.on_hand + new.on_hand_change, value_minor = kept.value_minor + new.value_change
    where part_id = of_part;
  return new;
end $$;
create trigger value_by_average before insert on stock_movement for each row execute function value_movement();

create or replace function keep_lot_balances() returns trigger language plpgsql as $$
begin
  perform set_config('crosshatch.ledger', 'on', true);
  update stock_lot l set on_hand = l.on_hand + m.on_hand, reserved = l.reserved + m.reserved
  from (select lot_id, sum(on_hand_change)::int as on_hand, sum(reserved_change)::int as reserved from moved group by lot_id) m
  where l.id = m.lot_id;
  perform set_config('crosshatch.ledger', 'off', true);
  return null;
end $$;

create or replace function refuse_bare_balance() returns trigger language plpgsql as $$
begin
  if (tg_op = 'INSERT' and (new.on_hand, new.reserved) is distinct from (0, 0))
     or (tg_op = 'UPDATE' and (new.on_hand, new.reserved) is distinct from (old.on_hand, old.reserved)
         and coalesce(current_setting('crosshatch.ledger', true), 'off') <> 'on') then
    raise exception 'stock changes by a movement only' using errcode = 'CH007', table = 'stock_lot';
  end if;
  return new;
end $$;
create trigger stock_lot_balances before insert or update on stock_lot for each row execute function refuse_bare_balance();

-- A part that is kept by serial has one in every lot.
create function want_serial() returns trigger language plpgsql as $$
begin
  if new.serial is null and (select by_serial from part where id = new.part_id) then
    raise exception 'this part is kept by serial: give the serial, one lot a piece' using errcode = 'CH007', table = 'stock_lot';
  end if;
  return new;
end $$;
create trigger serial_wanted before insert on stock_lot for each row execute function want_serial();

