-- A bin that is being counted is not closed, and a closed one is not counted: whichever of the two comes first, by whatever
-- way. Whoever begins to count holds the bin, so that who closes it sees the sheet.
create function refuse_closing_counted_bin() returns trigger language plpgsql as $$
declare
  on_sheet int;
begin
  select max(s.number) into on_sheet from count_sheet_bin o join count_sheet s on s.id = o.sheet_id
  where o.bin_id = new.id and o.ended_at is null;
  if on_sheet is not null then
    raise exception 'bin % is being counted on sheet %: end that first', new.code, on_sheet using errcode = 'CH019', table = 'bin';
  end if;
  return new;
end $$;
create trigger counted_stays_open before update of closed_at on bin
  for each row when (old.closed_at is null and new.closed_at is not null) execute function refuse_closing_counted_bin();

create function refuse_counting_closed_bin() returns trigger language plpgsql as $$
declare
  counted bin;
begin
  select * into counted from bin where id = new.bin_id for share;
  if counted.closed_at is not null then
    raise exception 'bin % is closed: open it to count it', counted.code using errcode = 'CH019', table = 'count_sheet_bin';
  end if;
  return new;
end $$;
create trigger of_an_open_bin before insert on count_sheet_bin for each row execute function refuse_counting_closed_bin();
