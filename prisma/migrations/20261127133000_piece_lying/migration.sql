-- Where the loose pieces of a line lie, one row a place that holds any; no tray: beside the engine.
create view piece_lying as
  select p.id as piece_id, null::uuid as tray_id, null::text as label, p.with_engine as count from piece p where p.with_engine > 0
  union all
  select i.piece_id, i.tray_id, t.label, i.count from piece_in_tray i join tray t on t.id = i.tray_id where i.count > 0;
