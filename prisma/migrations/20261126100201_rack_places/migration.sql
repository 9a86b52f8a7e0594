-- Which pieces of a rack lie in it: laid as they are counted off, taken as they go back on, each by its own place.

create table position_fill (
  id           uuid primary key,
  piece_id     uuid not null references piece,
  code         text not null,
  laid         boolean not null,
  filled_by_id uuid not null references person,
  filled_at    timestamptz not null default clock_timestamp()
);
create index position_fill_latest on position_fill (piece_id, code, filled_at desc);
create trigger append_only before update or delete on position_fill for each row execute function refuse_change();
comment on column position_fill.code is 'the place the piece came from: a piece keeps it wherever it lies';

create function filled_place_is_known() returns trigger language plpgsql as $$
begin
  if not exists (select from piece_position where piece_id = new.piece_id and code = new.code) then
    raise exception 'there is no such place in that rack' using errcode = 'CH002', table = 'position_fill';
  end if;
  return new;
end $$;
create trigger place_is_known before insert on position_fill for each row execute function filled_place_is_known();

-- A whole set that lies loose lies in its places, whoever counted it.
insert into position_fill (id, piece_id, code, laid, filled_by_id, filled_at)
  select gen_random_uuid(), p.id, s.code, true, m.moved_by_id, m.moved_at
  from piece p join piece_position s on s.piece_id = p.id
  join lateral (select moved_by_id, moved_at from piece_movement
                where piece_id = p.id and act in ('off', 'found') order by moved_at desc, id desc limit 1) m on true
  where p.off - p.fitted - p.renewed - p.accounted = (select count(*) from piece_position n where n.piece_id = p.id);

create or replace view position_standing as
  select p.piece_id, p.code, p.name, p.side, p.ordinal, coalesce(m.at_code, p.code) as at_code, coalesce(m.reason, '') as reason,
         m.moved_by_id, m.moved_at, coalesce(f.laid, false) as laid, f.filled_by_id, f.filled_at
  from piece_position p
  left join lateral (
    select m.at_code, m.reason, m.moved_by_id, m.moved_at from position_move m
    where m.piece_id = p.piece_id and m.code = p.code order by m.moved_at desc, m.id desc limit 1
  ) m on true
  left join lateral (
    select f.laid, f.filled_by_id, f.filled_at from position_fill f
    where f.piece_id = p.piece_id and f.code = p.code order by f.filled_at desc, f.id desc limit 1
  ) f on true;

-- Never more places filled than pieces are loose: what went back on lies in no rack.
create function rack_holds_what_is_loose() returns trigger language plpgsql as $$
declare
  of_piece uuid := case when tg_table_name = 'piece' then (to_jsonb(new) ->> 'id')::uuid else (to_jsonb(new) ->> 'piece_id')::uuid end;
  line record;
begin
  select p.name, p.off - p.fitted - p.renewed - p.accounted as loose,
         (select count(*) from position_standing s where s.piece_id = p.id and s.laid) as laid
    into line from piece p where p.id = of_piece;
  if line.laid > line.loose then
    raise exception '%: % places would be filled, but % are loose. Say which place is empty', line.name, line.laid, line.loose
      using errcode = 'CH002', table = 'position_fill';
  end if;
  return null;
end $$;
create constraint trigger rack_holds_what_is_loose after insert on position_fill deferrable initially deferred
  for each row execute function rack_holds_what_is_loose();
create constraint trigger rack_holds_what_is_loose after update of fitted, renewed, accounted on piece deferrable initially deferred
  for each row execute function rack_holds_what_is_loose();
