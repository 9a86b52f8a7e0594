-- A plan is made of what serves a part when it is read. Where somebody took a replacement back meanwhile, the plan is out
-- of date, not its wish wrong: CH020 says so, and whoever made it makes it anew.
create or replace function check_reserved_part() returns trigger language plpgsql as $$
declare
  of_line uuid;
  of_lot  uuid;
begin
  if tg_op = 'UPDATE' and new.quantity <= old.quantity then return new; end if;
  select part_id into of_line from demand_line where id = new.demand_line_id;
  select part_id into of_lot from stock_lot where id = new.lot_id;
  if of_line = of_lot
     or of_lot = any(parts_serving(of_line))
     or exists (select from alternative_taken t join demand_line d on d.id = t.demand_line_id
                where d.part_id = of_line and t.lot_id = new.lot_id) then
    return new;
  end if;
  raise exception 'that lot is of another part than the one that is wanted' using errcode = 'CH020', table = 'reservation';
end $$;
