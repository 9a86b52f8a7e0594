-- Holds without a yes last so many days: the newest row holds, two weeks where nobody set any; 0: they last without an end.
create table hold_rule (
  id        uuid primary key,
  days      integer not null check (days between 0 and 365),
  set_by_id uuid not null references person,
  set_at    timestamptz not null default clock_timestamp()
);
create index hold_rule_latest on hold_rule (set_at desc);
create trigger append_only before update or delete on hold_rule for each row execute function refuse_change();

create function hold_days() returns integer language sql stable as $$
  select coalesce((select r.days from hold_rule r order by r.set_at desc, r.id desc limit 1), 14)
$$;

-- The end of the day up to which a hold that begins now lasts, on the shop's clock; null: without an end.
create function hold_until() returns timestamptz language sql stable as $$
  select ((clock_timestamp() at time zone s.zone)::date + hold_days() + time '23:59') at time zone s.zone
  from shop s where hold_days() > 0
$$;

-- A job was quoted, and its owner has said yes to none of its quotes. One without a quote needs no yes.
create function has_no_yes(of_job uuid) returns boolean language sql stable as $$
  select exists (select from quote q where q.job_id = of_job)
     and not exists (select from quote q join quote_answer a on a.quote_id = q.id where q.job_id = of_job and a.yes)
$$;

-- Until when what a job asks for now is held: it has no yes, or one to an earlier quote while another is out; null: firmly.
create function held_for_yes_until(of_job uuid) returns timestamptz language sql stable as $$
  select hold_until() where has_no_yes(of_job) or exists (select from job_quote q where q.job_id = of_job and q.yes is null)
$$;

-- Whichever way pieces are promised to a job without a yes, or it begins to wait for some: not without an end. A day that
-- somebody said stays.
create function end_hold_without_yes() returns trigger language plpgsql as $$
declare
  job uuid;
begin
  select d.job_id into job from demand_line d where d.id = new.demand_line_id;
  if not has_no_yes(job) then return new; end if;
  if tg_op = 'UPDATE' and old.quantity > 0 and old.expires_at is not null then
    new.expires_at := old.expires_at;
  else
    new.expires_at := hold_until();
  end if;
  return new;
end $$;
create trigger until_a_yes before insert or update on reservation
  for each row when (new.quantity > 0 and new.expires_at is null) execute function end_hold_without_yes();

create function end_asking_without_yes() returns trigger language plpgsql as $$
begin
  if not has_no_yes(new.job_id) then return new; end if;
  new.asked_until := coalesce(
    case when old.asked_until > clock_timestamp() then old.asked_until end,
    (select max(r.expires_at) from reservation r where r.demand_line_id = new.id and r.expires_at > clock_timestamp()),
    hold_until());
  return new;
end $$;
create trigger until_a_yes before update on demand_line
  for each row when (new.asked_until is null and (new.short > 0 or (new.asked_whole and new.not_asked > 0)))
  execute function end_asking_without_yes();
