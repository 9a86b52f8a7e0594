-- Procedures in full: drafts, what a step asks for beside its pieces, branches, and a run that is interrupted, resumed and done again.

-- A draft is one document, written as a whole; its steps become rows when it is published, and never change after that.
alter table procedure_version
  add column edit            integer not null default 1 check (edit > 0),
  add column document        json,
  add column drafted_by_id   uuid references person,
  add column drafted_at      timestamptz not null default clock_timestamp(),
  add column published_by_id uuid references person;
comment on column procedure_version.document is 'of a draft: the whole procedure in our documented shape; null once published';
create unique index procedure_version_one_draft on procedure_version (procedure_id) where published_at is null;

alter table procedure_step
  add column section   text not null default '',
  add column photo     text not null default '',
  add column question  text,
  add column asks      text not null default '',
  add constraint step_asks_in_full check ((question is null) = (asks = ''));
create unique index procedure_step_question on procedure_step (version_id, question) where question is not null;
comment on column procedure_step.photo is 'what a photograph taken here has to show; empty: none is asked for';
comment on column procedure_step.question is 'code of what the technician is asked here; later steps may stand on the answer';

create table step_caution (
  id      uuid primary key,
  step_id uuid not null references procedure_step,
  ordinal integer not null,
  hazard  text not null check (hazard in ('fuel and solvent vapour', 'hot coolant', 'springs under load', 'lifting', 'compressed air',
    'cuts', 'plated-bore dust', 'used oil and coolant', 'first start', 'pulled through by hand', 'hot parts', 'moving parts', 'electricity',
    'eyes', 'damage', 'other')),
  words   text not null check (length(words) between 1 and 500),
  unique (step_id, ordinal)
);

create table step_reading (
  id             uuid primary key,
  step_id        uuid not null references procedure_step,
  ordinal        integer not null,
  dimension_code text not null check (length(dimension_code) between 1 and 60),
  round          text not null check (round in ('as received', 'after work', 'as built')),
  unique (step_id, ordinal),
  unique (step_id, dimension_code, round)
);

create table step_put_in (
  id       uuid primary key,
  step_id  uuid not null references procedure_step,
  ordinal  integer not null,
  name     text not null check (length(name) between 1 and 120),
  count    integer not null check (count between 1 and 99),
  to_where text not null check (length(to_where) between 1 and 120),
  unique (step_id, ordinal)
);
comment on table step_put_in is 'rags and plugs this step puts into the engine, to come out before it is closed';

create table step_choice (
  id      uuid primary key,
  step_id uuid not null references procedure_step,
  ordinal integer not null,
  code    text not null check (length(code) between 1 and 40),
  words   text not null check (length(words) between 1 and 120),
  unique (step_id, ordinal),
  unique (step_id, code)
);

-- Every condition of a step has to hold. A fact is known of the job; a question was asked by an earlier step of the version.
create table step_condition (
  id        uuid primary key,
  step_id   uuid not null references procedure_step,
  ordinal   integer not null,
  fact      text check (fact in ('cycle', 'cooling', 'bore', 'adjuster', 'size class')),
  question  text,
  one_of    text[] not null check (cardinality(one_of) > 0),
  unique (step_id, ordinal),
  check (num_nonnulls(fact, question) = 1)
);

insert into step_caution (id, step_id, ordinal, hazard, words)
  select gen_random_uuid(), id, 1, 'other', left(caution, 500) from procedure_step where caution <> '';
insert into step_reading (id, step_id, ordinal, dimension_code, round)
  select gen_random_uuid(), s.id, 1, s.dimension_code, case p.kind when 'strip' then 'as received' else 'as built' end
  from procedure_step s join procedure_version v on v.id = s.version_id join procedure p on p.id = v.procedure_id
  where s.dimension_code is not null;
alter table procedure_step drop column caution, drop column dimension_code;

create function keep_published_procedure() returns trigger language plpgsql as $$
begin
  if old.published_at is not null then
    raise exception 'version % of this procedure is published and never changes', old.number using errcode = 'CH002', table = 'procedure_version';
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before update or delete on procedure_version for each row execute function keep_published_procedure();

create function keep_published_step() returns trigger language plpgsql as $$
declare ids uuid[];
begin
  ids := array_remove(array[case when tg_op <> 'INSERT' then old.version_id end, case when tg_op <> 'DELETE' then new.version_id end], null);
  if exists (select from procedure_version where id = any (ids) and published_at is not null) then
    raise exception 'the version of this step is published and never changes' using errcode = 'CH002', table = tg_table_name;
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before insert or update or delete on procedure_step for each row execute function keep_published_step();

create function keep_published_step_part() returns trigger language plpgsql as $$
declare ids uuid[];
begin
  ids := array_remove(array[case when tg_op <> 'INSERT' then old.step_id end, case when tg_op <> 'DELETE' then new.step_id end], null);
  if exists (select from procedure_step s join procedure_version v on v.id = s.version_id where s.id = any (ids) and v.published_at is not null) then
    raise exception 'the version of this step is published and never changes' using errcode = 'CH002', table = tg_table_name;
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end $$;
create trigger keep_published before insert or update or delete on step_piece for each row execute function keep_published_step_part();
create trigger keep_published before insert or update or delete on step_caution for each row execute function keep_published_step_part();
create trigger keep_published before insert or update or delete on step_reading for each row execute function keep_published_step_part();
create trigger keep_published before insert or update or delete on step_put_in for each row execute function keep_published_step_part();
create trigger keep_published before insert or update or delete on step_choice for each row execute function keep_published_step_part();
create trigger keep_published before insert or update or delete on step_condition for each row execute function keep_published_step_part();

-- What is known of a job without asking anybody.
create view job_fact as
  select j.id as job_id, known.fact, known.value
  from job j
  join engine e on e.id = j.engine_id
  join family f on f.id = e.family_id
  cross join lateral (
    select 'cycle' as fact, f.cycle as value
    union all select 'cooling', f.cooling
    union all select 'bore', case when exists (select from spec_place p where p.revision_id = j.revision_id and p.plated) then 'plated' else 'not plated' end
    union all select distinct 'adjuster', v.adjuster from spec_valve v where v.revision_id = j.revision_id
    union all (select 'size class', c.size_class from fitted_part c
               where c.engine_id = e.id and c.place_code = 'cylinder' and c.fitted_at <= coalesce(j.handed_back_at, clock_timestamp())
               order by c.fitted_at desc, c.id desc limit 1)
  ) known;

-- Doing a step again is a fact too: from then on its marks begin anew.
create table step_redo (
  id       uuid primary key,
  run_id   uuid not null references procedure_run,
  step_id  uuid not null references procedure_step,
  round    integer not null check (round > 1),
  reason   text not null check (length(reason) between 1 and 500),
  asked_by_id uuid not null references person,
  asked_at timestamptz not null default clock_timestamp(),
  unique (run_id, step_id, round)
);
create trigger append_only before update or delete on step_redo for each row execute function refuse_change();

alter table step_mark add column round integer not null default 1 check (round > 0);
alter table step_mark drop constraint step_mark_run_id_step_id_mark_key;
alter table step_mark add constraint step_mark_once unique (run_id, step_id, round, mark);

-- The marks that count: those of the newest round of each step.
create view step_mark_now as
  select m.* from step_mark m
  where m.round = coalesce((select max(r.round) from step_redo r where r.run_id = m.run_id and r.step_id = m.step_id), 1);

create table run_answer (
  id             uuid primary key,
  run_id         uuid not null references procedure_run,
  step_id        uuid not null references procedure_step,
  choice         text not null,
  reason         text not null default '' check (length(reason) <= 500),
  supersedes_id  uuid unique references run_answer,
  answered_by_id uuid not null references person,
  answered_at    timestamptz not null default clock_timestamp(),
  check (supersedes_id is null or length(reason) > 0)
);
create unique index run_answer_first on run_answer (run_id, step_id) where supersedes_id is null;
create trigger append_only before update or delete on run_answer for each row execute function refuse_change();

create view run_answer_now as
  select a.* from run_answer a where not exists (select from run_answer n where n.supersedes_id = a.id);

create table run_interruption (
  id             uuid primary key,
  run_id         uuid not null references procedure_run,
  step_id        uuid not null references procedure_step,
  why            text not null check (length(why) between 1 and 300),
  loose          text not null check (length(loose) between 1 and 500),
  interrupted_by_id uuid not null references person,
  interrupted_at timestamptz not null default clock_timestamp()
);
create index run_interruption_run on run_interruption (run_id, interrupted_at);
comment on column run_interruption.loose is 'what is loose, untorqued or half done at that moment, in words';
create trigger append_only before update or delete on run_interruption for each row execute function refuse_change();

create table run_resumption (
  id              uuid primary key,
  interruption_id uuid not null unique references run_interruption,
  resumed_by_id   uuid not null references person,
  resumed_at      timestamptz not null default clock_timestamp()
);
create trigger append_only before update or delete on run_resumption for each row execute function refuse_change();

-- True when the step does not apply to the run: a fact or an answer speaks against it, or what it stands on was never asked.
-- A question not answered yet leaves it open.
create function step_left_out(of_run uuid, of_step uuid) returns boolean language plpgsql stable as $$
declare
  c step_condition;
  asking uuid;
begin
  for c in select * from step_condition where step_id = of_step order by ordinal loop
    if c.fact is not null then
      if not exists (select from procedure_run r join job_fact f on f.job_id = r.job_id
                     where r.id = of_run and f.fact = c.fact and f.value = any (c.one_of)) then
        return true;
      end if;
    else
      select q.id into asking from procedure_step me join procedure_step q on q.version_id = me.version_id and q.ordinal < me.ordinal
        where me.id = of_step and q.question = c.question;
      if asking is null or step_left_out(of_run, asking) then return true; end if;
      if exists (select from run_answer_now a where a.run_id = of_run and a.step_id = asking and not a.choice = any (c.one_of)) then
        return true;
      end if;
    end if;
  end loop;
  return false;
end $$;

-- Whatever is told of a step in a run is told of a step of that run's own version.
create function keep_step_of_run() returns trigger language plpgsql as $$
begin
  if not exists (select from procedure_run r join procedure_step s on s.version_id = r.version_id where r.id = new.run_id and s.id = new.step_id) then
    raise exception 'this step belongs to another version than the one this run follows' using errcode = 'CH002', table = tg_table_name;
  end if;
  return new;
end $$;
create trigger of_run before insert on step_mark for each row execute function keep_step_of_run();
create trigger of_run before insert on step_redo for each row execute function keep_step_of_run();
create trigger of_run before insert on run_answer for each row execute function keep_step_of_run();
create trigger of_run before insert on run_interruption for each row execute function keep_step_of_run();

create function interrupted(of_run uuid) returns boolean language sql stable as $$
  select exists (select from run_interruption i where i.run_id = of_run and not exists (select from run_resumption r where r.interruption_id = i.id))
$$;

create function keep_step_marks() returns trigger language plpgsql as $$
declare
  stop boolean;
begin
  perform from procedure_run where id = new.run_id for update;
  select second_person into stop from procedure_step where id = new.step_id;
  if new.round <> coalesce((select max(round) from step_redo where run_id = new.run_id and step_id = new.step_id), 1) then
    raise exception 'this step is to be done again: mark it in its newest round' using errcode = 'CH002', table = 'step_mark';
  end if;
  if new.mark = 'skipped' and stop then
    raise exception 'a step that needs a second person can''t be skipped' using errcode = 'CH002', table = 'step_mark';
  end if;
  if new.mark = 'second person' and not exists (
    select from step_mark d where d.run_id = new.run_id and d.step_id = new.step_id and d.round = new.round and d.mark = 'done'
      and d.marked_by_id <> new.marked_by_id) then
    raise exception 'the second person is another than the one who did the step, and marks it after' using errcode = 'CH002', table = 'step_mark';
  end if;
  if new.mark <> 'second person' and step_left_out(new.run_id, new.step_id) then
    raise exception 'this step is left out here: a fact or an answer speaks against it' using errcode = 'CH002', table = 'step_mark';
  end if;
  if new.mark <> 'second person' and interrupted(new.run_id) then
    raise exception 'this procedure was interrupted: resume it first' using errcode = 'CH002', table = 'step_mark';
  end if;
  return new;
end $$;
create trigger keeps_rules before insert on step_mark for each row execute function keep_step_marks();

create function keep_step_redo() returns trigger language plpgsql as $$
declare
  newest integer;
begin
  perform from procedure_run where id = new.run_id for update;
  newest := coalesce((select max(round) from step_redo where run_id = new.run_id and step_id = new.step_id), 1);
  if new.round <> newest + 1 or not exists (
    select from step_mark where run_id = new.run_id and step_id = new.step_id and round = newest and mark in ('done', 'skipped')) then
    raise exception 'only a step that was done or skipped is done again' using errcode = 'CH002', table = 'step_redo';
  end if;
  return new;
end $$;
create trigger keeps_rules before insert on step_redo for each row execute function keep_step_redo();

create function keep_run_answer() returns trigger language plpgsql as $$
begin
  perform from procedure_run where id = new.run_id for update;
  if not exists (select from step_choice where step_id = new.step_id and code = new.choice) then
    raise exception 'this is no choice of that step' using errcode = 'CH002', table = 'run_answer';
  end if;
  if new.supersedes_id is not null and not exists (
    select from run_answer where id = new.supersedes_id and run_id = new.run_id and step_id = new.step_id) then
    raise exception 'an answer supersedes an earlier one to the same question' using errcode = 'CH002', table = 'run_answer';
  end if;
  return new;
end $$;
create trigger keeps_rules before insert on run_answer for each row execute function keep_run_answer();

create function keep_one_interruption() returns trigger language plpgsql as $$
begin
  perform from procedure_run where id = new.run_id for update;
  if interrupted(new.run_id) then
    raise exception 'this procedure is interrupted already: it has to be resumed first' using errcode = 'CH002', table = 'run_interruption';
  end if;
  return new;
end $$;
create trigger keeps_rules before insert on run_interruption for each row execute function keep_one_interruption();

create function keep_run_on_published() returns trigger language plpgsql as $$
begin
  if not exists (select from procedure_version where id = new.version_id and published_at is not null) then
    raise exception 'a run follows a published version' using errcode = 'CH002', table = 'procedure_run';
  end if;
  return new;
end $$;
create trigger on_published before insert on procedure_run for each row execute function keep_run_on_published();
create trigger keeps_version before update of job_id, version_id on procedure_run for each row execute function refuse_change();
