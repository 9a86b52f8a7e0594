-- A part that was replaced is bought as the one that replaced it. Who orders the old one all the same says why, and it stays.
alter table purchase_line add column replaced_reason text
  constraint purchase_line_replaced_reason check (length(replaced_reason) between 1 and 300 and replaced_reason ~ '\S');
comment on column purchase_line.replaced_reason is 'why a part was ordered that had been replaced by then';

create function order_newest_part() returns trigger language plpgsql as $$
declare old text; newer text;
begin
  select p.number, n.number into old, newer from part p join part n on n.id = p.superseded_by_id where p.id = new.part_id;
  if newer is not null then
    raise exception '% was replaced by %: order that, or say why the old one is wanted', old, newer
      using errcode = 'CH007', table = 'purchase_line';
  end if;
  return new;
end $$;
create trigger newest_is_ordered before insert on purchase_line for each row
  when (new.replaced_reason is null) execute function order_newest_part();
