-- What a vendor is told of one line of an order: in which grade, how thick. It goes out with the order and stays.

alter table purchase_line add column words text not null default ''
  check (words = btrim(words) and length(words) <= 300);

create function order_words_stay() returns trigger language plpgsql as $$
begin
  raise exception 'what a vendor was told of a line stays as it went out' using errcode = 'CH007', table = 'purchase_line';
end $$;
create trigger words_stay before update of words on purchase_line for each row
  when (new.words is distinct from old.words) execute function order_words_stay();
