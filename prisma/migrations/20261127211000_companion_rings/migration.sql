-- What goes with a part, and what goes with that in turn, never leads back to the part itself.
create function refuse_companion_ring() returns trigger language plpgsql as $$
begin
  -- Of two who write at once the second sees what the first has written.
  perform pg_advisory_xact_lock(hashtextextended('what goes with a part', 0));
  if exists (
    with recursive reached (id) as (
      select new.companion_id
      union
      select c.companion_id from reached r join part_companion c on c.part_id = r.id
    )
    select from reached where id = new.part_id
  ) then
    raise exception 'a part would, over what goes with it, go with itself' using errcode = 'CH007', table = 'part_companion';
  end if;
  return null;
end $$;
create trigger no_ring after insert or update on part_companion for each row execute function refuse_companion_ring();
