-- Vendors sell by the pack: a box of ten washers, a litre of oil. Stock stays in whole ones of the part's unit; a price is
-- one of a pack, and says how many ones that pack has. What is ordered are whole packs of the size that the line remembers.

alter table vendor_price
  add column pack_size integer not null default 1 constraint vendor_price_pack check (pack_size between 1 and 100000);
comment on column vendor_price.price_minor is 'of one pack';
comment on column vendor_price.pack_size is 'how many of the part''s unit one pack has';

alter table purchase_line
  add column pack_size integer not null default 1 constraint purchase_line_pack check (pack_size between 1 and 100000);
comment on column purchase_line.price_minor is 'of one pack';
comment on column purchase_line.pack_size is 'of one pack as it was ordered, in the part''s unit; quantity and received are in that unit';

create function order_whole_packs() returns trigger language plpgsql as $$
begin
  if new.quantity % new.pack_size <> 0 then
    raise exception 'it is sold by the pack of %: % are no whole packs', new.pack_size, new.quantity
      using errcode = 'CH007', table = 'purchase_line';
  end if;
  return new;
end $$;
create trigger in_whole_packs before insert on purchase_line for each row execute function order_whole_packs();

-- Pieces of a pack may come, go back or be called off one by one; the pack they are of stays as it was ordered.
create function keep_ordered_pack() returns trigger language plpgsql as $$
begin
  raise exception 'the pack that was ordered stays as it was written' using errcode = 'CH007', table = 'purchase_line';
end $$;
create trigger pack_stays before update of pack_size on purchase_line for each row
  when (new.pack_size is distinct from old.pack_size) execute function keep_ordered_pack();

-- Days are the shop's, not the server's.
create function shop_day(at timestamptz) returns date language sql stable as $$
  select (at at time zone coalesce((select zone from shop), 'UTC'))::date
$$;
create function shop_today() returns date language sql stable as $$ select shop_day(now()) $$;
