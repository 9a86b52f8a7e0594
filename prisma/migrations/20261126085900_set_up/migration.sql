-- Setting up a shop: people who join and leave, terminals that tap out by themselves.

alter table terminal add column idle_minutes integer check (idle_minutes between 1 and 720);
alter table terminal add column retired_at timestamptz;
comment on column terminal.idle_minutes is 'whoever is signed in is tapped out after so long without a touch; null: never';

-- Somebody must be able to set the shop up. The shop's row is the lock, so that two leads can't leave past each other.
create function keep_a_lead() returns trigger language plpgsql as $$
begin
  perform from shop for update;
  if not exists (select from person_role r join person p on p.id = r.person_id where r.role = 'lead' and p.left_at is null) then
    raise exception 'the shop needs a lead: make somebody else lead first' using errcode = 'CH009', table = 'person_role';
  end if;
  return null;
end $$;
create constraint trigger keep_a_lead after update or delete on person_role deferrable initially deferred
  for each row execute function keep_a_lead();
create constraint trigger keep_a_lead after update of left_at on person deferrable initially deferred
  for each row when (new.left_at is not null) execute function keep_a_lead();

-- Nobody leaves with an engine or a tray in hand, and nothing is handed to somebody who has left.
create function leaves_with_nothing() returns trigger language plpgsql as $$
declare held integer;
begin
  select count(*) into held from custody where person_id = new.id and until_at is null;
  if held > 0 then
    raise exception '% still holds % engines or trays: have them handed over first', new.name, held using errcode = 'CH009', table = 'person';
  end if;
  if exists (select from handover where ended_at is null and (giver_id = new.id or receiver_id = new.id)) then
    raise exception '% still has a handover without an answer', new.name using errcode = 'CH009', table = 'person';
  end if;
  return new;
end $$;
create trigger leaves_with_nothing before update of left_at on person
  for each row when (old.left_at is null and new.left_at is not null) execute function leaves_with_nothing();

create function holder_works_here() returns trigger language plpgsql as $$
declare left_when timestamptz; who text;
begin
  -- FOR SHARE waits for a person who is just leaving.
  select left_at, name into left_when, who from person where id = new.person_id for share;
  if left_when is not null and new.until_at is null then
    raise exception '% has left the shop and can hold nothing', who using errcode = 'CH009', table = 'custody';
  end if;
  return new;
end $$;
create trigger holder_works_here before insert on custody
  for each row when (new.person_id is not null) execute function holder_works_here();

-- A bay is given up empty. Its row is the lock, as for who stands in it.
create function bay_given_up_empty() returns trigger language plpgsql as $$
begin
  if exists (select from custody where place_id = new.id and until_at is null) then
    raise exception '% is not empty: move what stands in it first', new.name using errcode = 'CH009', table = 'bay';
  end if;
  return new;
end $$;
create trigger bay_given_up_empty before update of retired_at on bay
  for each row when (old.retired_at is null and new.retired_at is not null) execute function bay_given_up_empty();
