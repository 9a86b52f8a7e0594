-- A set kept in order may lie in two trays: each place knows in which tray its piece lies.

alter table position_fill add column tray_id uuid references tray;
comment on column position_fill.tray_id is 'the tray the piece was laid in; none: beside the engine, or it was taken out';

create or replace view position_standing as
  select p.piece_id, p.code, p.name, p.side, p.ordinal, coalesce(m.at_code, p.code) as at_code, coalesce(m.reason, '') as reason,
         m.moved_by_id, m.moved_at, coalesce(f.laid, false) as laid, f.filled_by_id, f.filled_at,
         case when f.laid then f.tray_id end as tray_id
  from piece_position p
  left join lateral (
    select m.at_code, m.reason, m.moved_by_id, m.moved_at from position_move m
    where m.piece_id = p.piece_id and m.code = p.code order by m.moved_at desc, m.id desc limit 1
  ) m on true
  left join lateral (
    select f.laid, f.tray_id, f.filled_by_id, f.filled_at from position_fill f
    where f.piece_id = p.piece_id and f.code = p.code order by f.filled_at desc, f.id desc limit 1
  ) f on true;

-- A set that lies in one tray lies there with all its places. Of one that was split nobody said which piece lies where:
-- its places are empty until somebody says so.
alter table position_fill disable trigger append_only;
with line as (
  select l.piece_id, count(*) = 1 as whole, (array_agg(l.tray_id))[1] as tray_id
  from (select p.id as piece_id, null::uuid as tray_id from piece p where p.with_engine > 0
        union all select i.piece_id, i.tray_id from piece_in_tray i where i.count > 0) l
  group by l.piece_id
)
update position_fill f set tray_id = case when l.whole then l.tray_id end, laid = l.whole
from line l where l.piece_id = f.piece_id and f.laid;
alter table position_fill enable trigger append_only;

-- Never more places filled in a tray than pieces of the line lie in it.
create or replace function rack_holds_what_is_loose() returns trigger language plpgsql as $$
declare
  of_piece uuid := case when tg_table_name = 'piece' then (to_jsonb(new) ->> 'id')::uuid else (to_jsonb(new) ->> 'piece_id')::uuid end;
  line record;
begin
  for line in
    select p.name, t.label, count(*) as laid,
           case when s.tray_id is null then p.with_engine
                else coalesce((select i.count from piece_in_tray i where i.piece_id = p.id and i.tray_id = s.tray_id), 0) end as lying
    from position_standing s join piece p on p.id = s.piece_id left join tray t on t.id = s.tray_id
    where s.piece_id = of_piece and s.laid group by p.id, s.tray_id, t.label
  loop
    if line.laid > line.lying then
      raise exception '%: % places would be filled %, but % are loose there. Say which place is empty',
        line.name, line.laid, coalesce('in tray ' || line.label, 'beside the engine'), line.lying
        using errcode = 'CH002', table = 'position_fill';
    end if;
  end loop;
  return null;
end $$;
create constraint trigger rack_holds_what_lies_with_engine after update of with_engine on piece deferrable initially deferred
  for each row execute function rack_holds_what_is_loose();
create constraint trigger rack_holds_what_lies_in_tray after update on piece_in_tray deferrable initially deferred
  for each row execute function rack_holds_what_is_loose();
