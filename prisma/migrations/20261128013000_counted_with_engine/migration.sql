-- Pieces that lie beside the engine in no tray are counted wherever the engine itself changes hands, as those in trays are.

-- A line of a handover in no tray: its pieces lie beside the engine that goes over.
alter table handover_line alter column tray_id drop not null;
alter table handover_line drop constraint handover_line_handover_id_tray_id_piece_id_key;
alter table handover_line add constraint handover_line_handover_id_tray_id_piece_id_key
  unique nulls not distinct (handover_id, tray_id, piece_id);
alter table handover_line add constraint handover_line_beside_is_of_a_piece check (tray_id is not null or piece_id is not null);
comment on column handover_line.tray_id is 'none: beside the engine, which is handed over itself';

-- Offers that stand unanswered: their receiver counts these too.
insert into handover_line (id, handover_id, tray_id, piece_id, name, given)
  select gen_random_uuid(), h.id, null, p.id, p.name || case when p.from_where = '' then '' else ', ' || p.from_where end, p.with_engine
  from handover h join opening o on o.job_id = h.job_id join piece p on p.opening_id = o.id
  where h.ended_at is null and h.engine_id is not null and p.with_engine > 0;

-- With what the pieces of a line are counted: the trays in which any of it ever lay; of what lies in no tray, the engine.
create view piece_counted_with as
  select i.piece_id, i.tray_id as counted_with from piece_in_tray i
  union all
  select p.id, o.engine_id from piece p join opening o on o.id = p.opening_id where p.with_engine > 0;
