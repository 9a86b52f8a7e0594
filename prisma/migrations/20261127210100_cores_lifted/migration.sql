-- A piece that goes back to its vendor takes its core with it: so many of what was owed are not owed any more. A core that
-- was sent or credited already stays: the vendor has it, and a replacement asks for no other.
create table core_lifted (
  id           uuid primary key,
  core_id      uuid not null references core_owed,
  quantity     integer not null check (quantity > 0),
  words        text not null check (words ~ '\S' and length(words) <= 300),
  lifted_by_id uuid not null references person,
  lifted_at    timestamptz not null default clock_timestamp()
);
create index core_lifted_core on core_lifted (core_id);
create trigger append_only before update or delete on core_lifted for each row execute function refuse_change();

create view core_now as
  select c.id, c.purchase_line_id, c.charge_minor, c.owed_at,
    c.quantity - (select coalesce(sum(l.quantity), 0)::int from core_lifted l where l.core_id = c.id) as quantity
  from core_owed c;

create function check_core_owed() returns trigger language plpgsql as $$
declare
  owed integer;
begin
  perform from core_owed where id = new.core_id for no key update;
  select quantity into owed from core_now where id = new.core_id;
  if owed < (case tg_table_name when 'core_lifted' then (to_jsonb(new)->>'quantity')::int else 1 end) then
    raise exception 'that piece went back to its vendor: its core is not owed any more' using errcode = 'CH019', table = tg_table_name;
  end if;
  return new;
end $$;
create trigger at_most_owed before insert on core_lifted for each row execute function check_core_owed();
create trigger still_owed before insert on core_mark for each row execute function check_core_owed();

create index core_owed_line on core_owed (purchase_line_id);
