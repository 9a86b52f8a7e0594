-- A bin's code, a kit's name and a part's number are one thing's, in small and large letters alike: also of two who make
-- them at the same moment. Doubles that are there already keep their lots, lines and labels: the one made first keeps its
-- name, each later one gets the next free "-2", "-3" … behind it.

create function pg_temp.free_name(of_name text, longest int, taken text[]) returns text language plpgsql as $$
declare
  nth  int := 2;
  name text;
begin
  loop
    name := left(of_name, longest - length('-' || nth)) || '-' || nth;
    if lower(name) <> all (taken) then return name; end if;
    nth := nth + 1;
  end loop;
end $$;

do $$
declare double record;
begin
  for double in
    select id, code from (select id, code, row_number() over (partition by lower(code) order by id) as nth from bin) b where nth > 1 order by id
  loop
    update bin set code = pg_temp.free_name(double.code, 20, (select array_agg(lower(code)) from bin)) where id = double.id;
  end loop;
  for double in
    select id, number from (select id, number, row_number() over (partition by lower(number) order by id) as nth from part) p where nth > 1 order by id
  loop
    update part set number = pg_temp.free_name(double.number, 40, (select array_agg(lower(number)) from part)) where id = double.id;
  end loop;
end $$;
drop index part_number_small;
create unique index part_number_small on part (lower(number));
create unique index bin_code_small on bin (lower(code));

-- A kit's name is as long as a file of kits may say it. Longer ones are cut off, blank ones called by what they are.
update kit set name = left(coalesce(nullif(btrim(name), ''), 'Kit'), 80) where length(name) > 80 or name !~ '\S';
do $$
declare double record;
begin
  for double in
    select id, family_id, name from (
      select id, family_id, name, row_number() over (partition by family_id, lower(name) order by id) as nth from kit) k where nth > 1 order by id
  loop
    update kit set name = pg_temp.free_name(double.name, 80, (select array_agg(lower(name)) from kit where family_id = double.family_id))
      where id = double.id;
  end loop;
end $$;
alter table kit add constraint kit_name_said check (name ~ '\S' and length(name) <= 80);
create unique index kit_name_small on kit (family_id, lower(name));
drop function pg_temp.free_name(text, int, text[]);

-- What a part is counted in, and whether by serial, is said before its first piece moves and stays: figures of two units
-- cannot be added. The part's row of worth is taken first, as a movement takes it, so that neither passes the other by.
create function keep_part_counted_alike() returns trigger language plpgsql as $$
begin
  insert into part_value (part_id) values (new.id) on conflict do nothing;
  if exists (select from stock_movement where part_id = new.id) then
    raise exception 'part % has moved: what it is counted in, and whether by serial, stays', new.number
      using errcode = 'CH007', table = 'part';
  end if;
  return new;
end $$;
create trigger part_counted_alike before update of unit, by_serial on part for each row
  when ((new.unit, new.by_serial) is distinct from (old.unit, old.by_serial)) execute function keep_part_counted_alike();
