-- A piece that is known by its serial is in one place. While it is out with a job that is still in the shop it comes back
-- from there, and no receipt or count lays it on a shelf as well. Once that job is handed back the piece has left with its
-- engine, and may come in anew. After the balances are kept: two lots of one serial have waited for each other by then.
create index stock_lot_of_serial on stock_lot (part_id, serial) where serial is not null;

create function refuse_serial_out() returns trigger language plpgsql as $$
declare
  gone record;
begin
  select p.name, p.number, l.serial, j.number as job into gone
  from moved m join stock_lot l on l.id = m.lot_id and l.serial is not null join part p on p.id = l.part_id
    join stock_lot o on o.part_id = l.part_id and o.serial = l.serial
    join stock_movement i on i.lot_id = o.id and i.act in ('issue', 'return') join job j on j.id = i.job_id
  where m.act in ('receive', 'adjust') and m.on_hand_change > 0 and j.handed_back_at is null
  group by p.name, p.number, l.serial, j.id having sum(i.on_hand_change) < 0 limit 1;
  if found then
    raise exception '% (%) with serial % is out with job %: take it back from there first',
      gone.name, gone.number, gone.serial, gone.job using errcode = 'CH019', table = 'stock_lot';
  end if;
  return null;
end $$;
create trigger serial_in_one_place after insert on stock_movement referencing new table as moved
  for each statement execute function refuse_serial_out();
