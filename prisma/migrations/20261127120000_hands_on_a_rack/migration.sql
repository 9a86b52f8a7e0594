-- Whoever swapped pieces of a rack, or said which of its places are filled, has worked on that line: a second person
-- checks it. What a rack follows by itself, as pieces come off, are moved or go back, is told by their movement.

alter table position_fill add column by_hand boolean not null default false;
comment on column position_fill.by_hand is 'somebody said so of the place itself; false: it followed a movement of the pieces, or a swap';

-- Fills written before: those that follow no movement of the same person by a moment.
alter table position_fill disable trigger append_only;
update position_fill f set by_hand = true
where not exists (
  select from piece_movement m
  where m.piece_id = f.piece_id and m.moved_by_id = f.filled_by_id and m.moved_at between f.filled_at - interval '5 seconds' and f.filled_at);
alter table position_fill enable trigger append_only;

create view piece_hand as
  select piece_id, moved_by_id as person_id from piece_movement where act in ('fitted', 'renewed', 'accounted')
  union
  select piece_id, moved_by_id from position_move
  union
  select piece_id, filled_by_id from position_fill where by_hand;
comment on view piece_hand is 'who worked on a line of the tally in a way that the closing check has to see: none of them ticks it';

create or replace function checked_by_another() returns trigger language plpgsql as $$
begin
  if exists (select from piece_hand h where h.piece_id = new.piece_id and h.person_id = new.checked_by_id)
     or exists (select from put_in_act a where a.put_in_id = new.put_in_id and a.acted_by_id = new.checked_by_id) then
    raise exception 'who worked on it does not check it: another person looks' using errcode = 'CH008', table = 'closing_check';
  end if;
  return new;
end $$;
