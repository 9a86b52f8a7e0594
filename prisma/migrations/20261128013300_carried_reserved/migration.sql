-- Reserved pieces may be carried to another bin, and their promise goes with them to the same kind of lot there. What was
-- right to be promised out of the one lot is right out of the other: it is not judged anew.
create function is_carried() returns boolean language sql stable as $$
  select coalesce(current_setting('crosshatch.carry', true), 'off') = 'on'
$$;

drop trigger of_the_wanted_part on reservation;
create trigger of_the_wanted_part before insert or update of quantity on reservation
  for each row when (not is_carried()) execute function check_reserved_part();

drop trigger by_the_lot_rule on reservation;
create trigger by_the_lot_rule before insert or update of quantity on reservation
  for each row when (not is_carried()) execute function check_lot_rule();

drop trigger is_an_alternative on alternative_taken;
create trigger is_an_alternative before insert on alternative_taken
  for each row when (not is_carried()) execute function check_alternative_taken();
