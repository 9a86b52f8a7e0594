-- A delivery is what came through the door at once: its note, what bringing it cost, and how that was spread over its
-- lines. The shares add up to the freight, to the last minor unit.

create table delivery (
  id            uuid primary key,
  note          text not null default '' check (length(note) <= 60),
  freight_minor bigint not null default 0 check (freight_minor >= 0),
  taken_by_id   uuid not null references person,
  taken_at      timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on delivery for each row execute function refuse_change();
comment on column delivery.note is 'what its delivery note is numbered';

alter table purchase_fact
  add column delivery_id uuid references delivery,
  add column cost_minor bigint check (cost_minor >= 0),
  add column freight_minor bigint check (freight_minor >= 0),
  drop constraint purchase_fact_kind_check,
  add constraint purchase_fact_kind_check check (kind in ('received', 'came wrong', 'came damaged', 'sent back', 'called off'));
create index purchase_fact_delivery on purchase_fact (delivery_id) where delivery_id is not null;
comment on column purchase_fact.cost_minor is 'of what came in: the goods alone, without their share of the freight';

create function freight_adds_up() returns trigger language plpgsql as $$
begin
  if (select sum(f.freight_minor) from purchase_fact f where f.delivery_id = new.id)
     is distinct from (select nullif(d.freight_minor, 0) from delivery d where d.id = new.id)
     and new.freight_minor > 0 then
    raise exception 'the freight of a delivery is shared out over its lines, all of it' using errcode = 'CH007', table = 'delivery';
  end if;
  return null;
end $$;
create constraint trigger freight_shared after insert on delivery deferrable initially deferred
  for each row execute function freight_adds_up();

-- A date that moves has a reason.
create or replace function keep_purchase_promise() returns trigger language plpgsql as $$
declare was date;
begin
  select promised_on into was from purchase_line where id = new.purchase_line_id for no key update;
  if was is not null and was is distinct from new.promised_on and new.words !~ '\S' then
    raise exception 'a date that moves needs a reason: say what the vendor said' using errcode = 'CH007', table = 'purchase_promise';
  end if;
  update purchase_line set promised_on = new.promised_on where id = new.purchase_line_id;
  return null;
end $$;
