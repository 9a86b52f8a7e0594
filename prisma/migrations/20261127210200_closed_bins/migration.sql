-- A closed bin takes nothing in, whichever way it comes: goods, a return, a count that finds more. Who closes a bin waits
-- for what is on its way into it, and what comes after finds it closed. What one statement lays down and takes out again
-- (a piece that comes back from its job and is carried to another bin) leaves nothing there.
create function refuse_closed_bin() returns trigger language plpgsql as $$
declare
  bins uuid[];
  shut text;
begin
  select array_agg(distinct l.bin_id) into bins
  from (select m.lot_id from moved m group by m.lot_id having sum(m.on_hand_change) > 0) i join stock_lot l on l.id = i.lot_id;
  if bins is null then return null; end if;
  perform from bin b where b.id = any(bins) order by b.id for share;
  select string_agg(b.code, ', ' order by b.code) into shut from bin b where b.id = any(bins) and b.closed_at is not null;
  if shut is not null then
    raise exception 'bin % is closed and takes nothing in', shut using errcode = 'CH019', table = 'bin';
  end if;
  return null;
end $$;
create trigger bin_is_open after insert on stock_movement referencing new table as moved
  for each statement execute function refuse_closed_bin();
