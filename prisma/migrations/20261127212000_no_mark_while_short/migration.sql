-- A piece of the open engine that was counted and came up short stops every run of its job, not the strip alone: no step is
-- marked done or skipped until it is found, named as never there, or declared possibly inside.

create function keep_marks_off_while_short() returns trigger language plpgsql as $$
declare
  short text;
begin
  if new.mark = 'second person' then return new; end if;
  select p.name into short
    from procedure_run r
    join opening o on o.job_id = r.job_id and o.closed_at is null
    join piece p on p.opening_id = o.id
    where r.id = new.run_id and p.expected - p.off - p.inside > 0
      and exists (select from piece_movement m where m.piece_id = p.id and m.act in ('off', 'found'))
    limit 1;
  if short is not null then
    raise exception 'no step is done or skipped while a piece is short: %', short using errcode = 'CH002', table = 'step_mark';
  end if;
  return new;
end $$;
create trigger while_short before insert on step_mark for each row execute function keep_marks_off_while_short();
