-- A step may say by itself that the engine is turned over in it; while something may be inside, it waits.

alter table procedure_step add column turns_engine boolean not null default false;

create or replace function step_waits_for_search() returns trigger language plpgsql as $$
declare step record; of_job uuid;
begin
  if new.mark <> 'done' then return new; end if;
  select title, turns_engine into step from procedure_step where id = new.step_id;
  select job_id into of_job from procedure_run where id = new.run_id;
  -- A step turns the engine over where it says so, where it cautions of just that, and where it has the lash measured.
  if step.turns_engine
     or exists (select from step_caution c where c.step_id = new.step_id and c.hazard = 'pulled through by hand')
     or exists (
       select from job j join spec_valve v on v.revision_id = j.revision_id
       join step_reading r on r.dimension_code = v.dimension_code and r.step_id = new.step_id
       where j.id = of_job) then
    perform refuse_turning_over(of_job, step.title);
  end if;
  return new;
end $$;
