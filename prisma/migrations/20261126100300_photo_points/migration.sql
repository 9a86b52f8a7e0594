-- A step that asks for a photograph is done once one of it stands, or once somebody has said why there is none.

alter table step_mark
  add column no_photo text not null default '' check (length(no_photo) <= 300),
  add constraint step_mark_no_photo_when_done check (no_photo = '' or mark = 'done');
comment on column step_mark.no_photo is 'why a step that asks for a photo is done without one';

-- Photos of a step that count: taken since it was begun in its newest round, and not removed.
create view step_photo as
  select p.run_id, p.step_id, p.id as photo_id
  from photo p
  where p.run_id is not null
    and not exists (select from photo_removal r where r.photo_id = p.id)
    and p.added_at > coalesce((select max(d.asked_at) from step_redo d where d.run_id = p.run_id and d.step_id = p.step_id), '-infinity');

create function keep_photo_points() returns trigger language plpgsql as $$
begin
  if new.mark = 'done' and new.no_photo = ''
     and exists (select from procedure_step s where s.id = new.step_id and s.photo <> '')
     and not exists (select from step_photo p where p.run_id = new.run_id and p.step_id = new.step_id) then
    raise exception 'this step asks for a photo: take it, or say why there is none' using errcode = 'CH002', table = 'step_mark';
  end if;
  return null;
end $$;
create constraint trigger asks_for_its_photo after insert on step_mark deferrable initially deferred
  for each row execute function keep_photo_points();
