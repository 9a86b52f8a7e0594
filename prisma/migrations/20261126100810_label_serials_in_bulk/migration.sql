-- A price list makes fifty thousand parts in one statement. Their label serials are the same as before, only worked out
-- without an aggregate a row, and looked up by a statement that is planned once a session.
create or replace function label_serial_of(id uuid, attempt integer) returns text language plpgsql immutable as $$
declare
  bits   bigint := ('x' || substr(encode(sha256(convert_to(id::text || ':' || attempt, 'UTF8')), 'hex'), 1, 10))::bit(40)::bigint;
  serial text := '';
begin
  for n in reverse 7..0 loop
    serial := serial || substr('0123456789ABCDEFGHJKMNPQRSTVWXYZ', 1 + ((bits >> (5 * n)) & 31)::integer, 1);
  end loop;
  return serial;
end $$;

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
      else taken := exists (select from engine where label_serial = new.label_serial);
    end case;
    exit when not taken;
    attempt := attempt + 1;
  end loop;
  return new;
end $$;
