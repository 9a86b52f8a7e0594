-- A job keeps the revision it came in under, until a named person moves it to a newer one of the same family.

create table revision_move (
  id               uuid primary key,
  job_id           uuid not null references job,
  from_revision_id uuid not null references spec_revision,
  to_revision_id   uuid not null references spec_revision,
  reason           text not null check (length(reason) between 1 and 500),
  moved_by_id      uuid not null references person,
  moved_at         timestamptz not null default clock_timestamp()
);
create index revision_move_job on revision_move (job_id, moved_at);
create trigger append_only before update or delete on revision_move for each row execute function refuse_change();

create function move_job_to_revision() returns trigger language plpgsql as $$
begin
  perform from spec_revision a, spec_revision b
  where a.id = new.from_revision_id and b.id = new.to_revision_id
    and b.family_id = a.family_id and b.number > a.number and b.published_at is not null;
  if not found then
    raise exception 'a job moves to a newer published revision of the same family only' using errcode = 'CH002', table = 'revision_move';
  end if;
  update job set revision_id = new.to_revision_id, version = version + 1
  where id = new.job_id and revision_id = new.from_revision_id and handed_back_at is null;
  if not found then
    raise exception 'the job is bound to another revision by now, or was handed back' using errcode = 'CH002', table = 'revision_move';
  end if;
  return new;
end $$;
create trigger moves_job after insert on revision_move for each row execute function move_job_to_revision();

create function keep_revision_of_job() returns trigger language plpgsql as $$
begin
  if not exists (select from revision_move where job_id = new.id and from_revision_id = old.revision_id and to_revision_id = new.revision_id) then
    raise exception 'a job keeps its revision until it is moved to a newer one with a reason' using errcode = 'CH002', table = 'job';
  end if;
  return new;
end $$;
create trigger keep_revision before update of revision_id on job for each row
  when (old.revision_id is distinct from new.revision_id) execute function keep_revision_of_job();
