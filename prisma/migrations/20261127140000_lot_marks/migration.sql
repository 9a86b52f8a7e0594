-- What a lot bears, thickness and grade, is put right by somebody who says why, and never otherwise.

create table lot_mark_correction (
  id              uuid primary key,
  lot_id          uuid not null references stock_lot,
  was_shim_nm     bigint,
  was_grade       text not null,
  shim_nm         bigint check (shim_nm > 0),
  grade           text not null check (grade = btrim(grade) and length(grade) <= 20),
  reason          text not null check (reason ~ '\S' and length(reason) <= 300),
  corrected_by_id uuid not null references person,
  corrected_at    timestamptz not null default clock_timestamp(),
  constraint lot_mark_correction_changes check ((shim_nm, grade) is distinct from (was_shim_nm, was_grade))
);
create index lot_mark_correction_lot on lot_mark_correction (lot_id, corrected_at);
create trigger append_only before update or delete on lot_mark_correction for each row execute function refuse_change();

create function keep_lot_marks() returns trigger language plpgsql as $$
begin
  perform set_config('crosshatch.lot_marks', 'on', true);
  update stock_lot set shim_nm = new.shim_nm, grade = new.grade
    where id = new.lot_id and shim_nm is not distinct from new.was_shim_nm and grade = new.was_grade;
  if not found then
    raise exception 'the lot bears other marks by now' using errcode = 'CH007', table = 'lot_mark_correction';
  end if;
  perform set_config('crosshatch.lot_marks', 'off', true);
  return null;
end $$;
create trigger keep_marks after insert on lot_mark_correction for each row execute function keep_lot_marks();

create function refuse_bare_marks() returns trigger language plpgsql as $$
begin
  if coalesce(current_setting('crosshatch.lot_marks', true), 'off') <> 'on' then
    raise exception 'what a lot bears is put right with a reason only' using errcode = 'CH007', table = 'stock_lot';
  end if;
  return new;
end $$;
create trigger stock_lot_marks before update of shim_nm, grade on stock_lot for each row
  when ((new.shim_nm, new.grade) is distinct from (old.shim_nm, old.grade)) execute function refuse_bare_marks();
