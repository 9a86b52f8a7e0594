-- A vendor has to know where the goods go and whom to ask: papers of the shop begin with its address.
alter table shop
  add column address text not null default '' constraint shop_address_length check (length(address) <= 300),
  add column phone text not null default '' constraint shop_phone_length check (length(phone) <= 60),
  add column email text not null default '' constraint shop_email_form
    check (email = '' or (length(email) <= 120 and email ~ '^[^@[:space:]]+@[^@[:space:]]+$'));
comment on column shop.address is 'in lines, as it is written on a letter';

-- By when the shop wants a line: said with the order. What its vendor promises is told apart, and may slip.
alter table purchase_line add column wanted_on date;
comment on column purchase_line.wanted_on is 'by when it is wanted, as it was ordered';
