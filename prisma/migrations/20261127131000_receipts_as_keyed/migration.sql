-- How many packs and how many loose ones somebody keyed: three packs of ten and thirty pieces are one count, but only one
-- of them can be held against the delivery note. Unknown of what was keyed before, and of what is keyed by serial.
alter table purchase_fact
  add column keyed_packs integer constraint purchase_fact_packs check (keyed_packs >= 0),
  add column keyed_loose integer constraint purchase_fact_loose check (keyed_loose >= 0),
  add constraint purchase_fact_keyed check ((keyed_packs is null) = (keyed_loose is null));
comment on column purchase_fact.keyed_packs is 'whole packs as they were keyed, of the size that the purchase line has; quantity holds them and the loose ones together';

create function check_keyed_count() returns trigger language plpgsql as $$
begin
  if new.quantity <> new.keyed_loose + new.keyed_packs * (select pack_size from purchase_line where id = new.purchase_line_id) then
    raise exception '% packs and % loose ones are not %', new.keyed_packs, new.keyed_loose, new.quantity
      using errcode = 'CH007', table = 'purchase_fact';
  end if;
  return new;
end $$;
create trigger keyed_as_counted before insert on purchase_fact for each row
  when (new.keyed_packs is not null) execute function check_keyed_count();
