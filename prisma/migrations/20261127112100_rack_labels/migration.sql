-- A rack, the places of a line kept in order, has a label of its own: it is carried, and put down beside others like it.

create table rack (
  id           uuid primary key,
  piece_id     uuid not null unique references piece,
  label_serial text not null unique,
  check (id = piece_id)
);
comment on table rack is 'a line of a tally that is kept in order, as a thing that carries a label';
comment on column rack.id is 'that of its line';

create or replace function give_label_serial() returns trigger language plpgsql as $$
declare attempt integer := 0; taken boolean;
begin
  if tg_op = 'UPDATE' and old.label_serial is not null then
    if new.label_serial is distinct from old.label_serial then
      raise exception 'what is printed on a label stays as it is' using errcode = 'CH001', table = tg_table_name;
    end if;
    return new;
  end if;
  loop
    new.label_serial := label_serial_of(new.id, attempt);
    case tg_table_name
      when 'part' then taken := exists (select from part where label_serial = new.label_serial);
      when 'bin' then taken := exists (select from bin where label_serial = new.label_serial);
      when 'tray' then taken := exists (select from tray where label_serial = new.label_serial);
      when 'rack' then taken := exists (select from rack where label_serial = new.label_serial);
      else taken := exists (select from engine where label_serial = new.label_serial);
    end case;
    exit when not taken;
    attempt := attempt + 1;
  end loop;
  return new;
end $$;
create trigger label_serial before insert or update of label_serial on rack for each row execute function give_label_serial();
create trigger append_only before delete on rack for each row execute function refuse_change();

create function rack_is_there_with_its_first_place() returns trigger language plpgsql as $$
begin
  if not exists (select from rack where id = new.piece_id) then
    insert into rack (id, piece_id, label_serial) values (new.piece_id, new.piece_id, '');
  end if;
  return null;
end $$;
create trigger rack_is_there after insert on piece_position for each row execute function rack_is_there_with_its_first_place();
insert into rack (id, piece_id, label_serial) select distinct piece_id, piece_id, '' from piece_position;
