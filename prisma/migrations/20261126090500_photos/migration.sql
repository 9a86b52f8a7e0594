-- Photos and documents of a job. The content lies in the file store under its hash; rows say what it is and what it shows.

create table photo (
  id            uuid primary key,
  engine_id     uuid not null references engine,
  job_id        uuid not null references job,
  hash          text not null check (hash ~ '^[0-9a-f]{64}$'),
  type          text not null check (type in ('image/jpeg', 'image/png', 'image/webp', 'application/pdf')),
  bytes         integer not null check (bytes > 0),
  width         integer check (width between 1 and 20000),
  height        integer check (height between 1 and 20000),
  name          text not null default '' check (length(name) <= 200),
  caption       text not null default '' check (length(caption) <= 300),
  taken_at      timestamptz not null,
  run_id        uuid references procedure_run,
  step_id       uuid references procedure_step,
  piece_id      uuid references piece,
  reading_id    uuid references reading,
  finding_id    uuid references finding,
  obligation_id uuid references obligation,
  handover_id   uuid references handover,
  place_code    text check (length(place_code) between 1 and 40),
  added_by_id   uuid not null references person,
  terminal_id   uuid references terminal,
  added_at      timestamptz not null default clock_timestamp(),
  check ((width is null) = (height is null)),
  check ((type = 'application/pdf') = (width is null)),
  check ((run_id is null) = (step_id is null)),
  constraint photo_at_one_thing check (num_nonnulls(run_id, piece_id, reading_id, finding_id, obligation_id, handover_id, place_code) <= 1)
);
comment on column photo.hash is 'SHA-256 of what is stored, in hexadecimal: its name in the file store';
comment on column photo.taken_at is 'as the camera or the terminal claims';
create index photo_engine on photo (engine_id, added_at);
create index photo_job on photo (job_id, added_at);
create index photo_hash on photo (hash);
create trigger append_only before update or delete on photo for each row execute function refuse_change();

-- What it is attached to is of the same job, and the job of the same engine.
create function photo_of_its_job() returns trigger language plpgsql as $$
begin
  if not exists (select from job where id = new.job_id and engine_id = new.engine_id)
     or not exists (
       select from (select new.job_id as job_id where num_nonnulls(new.run_id, new.piece_id, new.reading_id, new.finding_id,
                                                                    new.obligation_id, new.handover_id, new.place_code) = 0
         union all select r.job_id from procedure_run r join procedure_step s on s.version_id = r.version_id
                   where r.id = new.run_id and s.id = new.step_id
         union all select o.job_id from piece p join opening o on o.id = p.opening_id where p.id = new.piece_id
         union all select job_id from reading where id = new.reading_id
         union all select job_id from finding where id = new.finding_id
         union all select job_id from obligation where id = new.obligation_id
         union all select job_id from handover where id = new.handover_id
         union all select j.id from job j join spec_place s on s.revision_id = j.revision_id
                   where j.id = new.job_id and s.code = new.place_code) thing
       where thing.job_id = new.job_id) then
    raise exception 'a photo is attached to a thing of its own job' using errcode = 'CH002', table = 'photo';
  end if;
  return new;
end $$;
create trigger of_its_job before insert on photo for each row execute function photo_of_its_job();

-- Its caption, and whether the build sheet prints it: the newest row stands.
create table photo_note (
  id         uuid primary key,
  photo_id   uuid not null references photo,
  caption    text not null check (length(caption) <= 300),
  on_sheet   boolean not null,
  said_by_id uuid not null references person,
  said_at    timestamptz not null default clock_timestamp()
);
create index photo_note_latest on photo_note (photo_id, said_at desc, id desc);
create trigger append_only before update or delete on photo_note for each row execute function refuse_change();

-- The tombstone: shown nowhere any more, told of on the timeline.
create table photo_removal (
  photo_id      uuid primary key references photo,
  reason        text not null check (length(reason) between 1 and 300),
  removed_by_id uuid not null references person,
  removed_at    timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on photo_removal for each row execute function refuse_change();

-- Content that a lead had taken out of the store for good.
create table file_discard (
  id              uuid primary key,
  hash            text not null check (hash ~ '^[0-9a-f]{64}$'),
  reason          text not null check (length(reason) between 1 and 300),
  discarded_by_id uuid not null references person,
  discarded_at    timestamptz not null default clock_timestamp()
);
create index file_discard_hash on file_discard (hash, discarded_at);
create trigger append_only before update or delete on file_discard for each row execute function refuse_change();

create function discard_only_what_nobody_shows() returns trigger language plpgsql as $$
begin
  if exists (select from photo p where p.hash = new.hash
             and not exists (select from photo_removal r where r.photo_id = p.id)) then
    raise exception 'another photo still shows the same content; remove that one first' using errcode = 'CH002', table = 'file_discard';
  end if;
  return new;
end $$;
create trigger nobody_shows_it before insert on file_discard for each row execute function discard_only_what_nobody_shows();
