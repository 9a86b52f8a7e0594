-- Stores of tens of thousands of parts stay quick. A part is found by any piece of its number, its name, or the number a
-- vendor has for it: one narrow row a part holds them all in small letters, read whole in a few milliseconds by any
-- PostgreSQL, with no extension.
create table part_words (
  part_id uuid primary key references part,
  own     text not null,
  theirs  text not null default '',
  words   text not null generated always as (own || ' ' || theirs) stored
);
comment on table part_words is 'kept by triggers: what a part is searched by';
comment on column part_words.theirs is 'numbers that vendors have for it; they are only ever added';

create function keep_own_words() returns trigger language plpgsql as $$
begin
  insert into part_words as w (part_id, own)
    select c.id, lower(c.number || ' ' || c.name) from changed c order by c.id
    on conflict (part_id) do update set own = excluded.own where w.own <> excluded.own;
  return null;
end $$;
create trigger keep_words_of_new after insert on part referencing new table as changed
  for each statement execute function keep_own_words();
create trigger keep_words_of_changed after update on part referencing new table as changed
  for each statement execute function keep_own_words();

create function keep_their_words() returns trigger language plpgsql as $$
begin
  -- Two price lists at once lock in one order; each adds to what the other left.
  perform from part_words where part_id in (select t.part_id from told t where t.their_number <> '') order by part_id for no key update;
  update part_words w set theirs = ltrim(w.theirs || ' ' || t.number)
    from (select part_id, lower(string_agg(distinct their_number, ' ')) as number from told where their_number <> '' group by part_id) t
    where w.part_id = t.part_id and position(t.number in w.theirs) = 0;
  return null;
end $$;
create trigger keep_words after insert on vendor_price referencing new table as told
  for each statement execute function keep_their_words();

insert into part_words (part_id, own, theirs)
  select p.id, lower(p.number || ' ' || p.name),
    coalesce((select lower(string_agg(distinct v.their_number, ' ')) from vendor_price v where v.part_id = p.id and v.their_number <> ''), '')
  from part p;

-- A number is one part's, however it is written: files find parts by it.
create index part_number_small on part (lower(number));
create index part_to_watch on part (reorder_point) where reorder_point > 0 and retired_at is null;
create index purchase_line_open on purchase_line (order_id) where received < quantity;
-- What is used a day is read off the issues alone.
create index stock_movement_use on stock_movement (part_id, moved_at) where act in ('issue', 'return');
