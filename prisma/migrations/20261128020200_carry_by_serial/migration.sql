-- A piece that is known by its serial is carried from one lot to its like in one statement, and a serial lies in one lot at
-- a time: what goes out of lots is kept before what comes into others, else the index refuses the carrying now and then.
create or replace function keep_lot_balances() returns trigger language plpgsql as $$
begin
  perform set_config('crosshatch.ledger', 'on', true);
  update stock_lot l set on_hand = l.on_hand + m.on_hand, reserved = l.reserved + m.reserved
  from (select lot_id, sum(on_hand_change)::int as on_hand, sum(reserved_change)::int as reserved from moved
        group by lot_id having sum(on_hand_change) <= 0) m
  where l.id = m.lot_id;
  update stock_lot l set on_hand = l.on_hand + m.on_hand, reserved = l.reserved + m.reserved
  from (select lot_id, sum(on_hand_change)::int as on_hand, sum(reserved_change)::int as reserved from moved
        group by lot_id having sum(on_hand_change) > 0) m
  where l.id = m.lot_id;
  perform set_config('crosshatch.ledger', 'off', true);
  return null;
end $$;
