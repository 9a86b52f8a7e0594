-- What a sheet says of a ring beside its angle: what it is, whether a pin holds it, what is marked on it and which way
-- that faces. A ring without an angle and a pin goes by the rule of thumb.
alter table spec_ring
  alter column angle_udeg drop not null,
  add column part text not null default 'compression' check (part in ('compression', 'spacer', 'rail')),
  add column pin_udeg bigint check (pin_udeg >= 0 and pin_udeg < 360000000),
  add column mark text not null default '',
  add column faces text not null default 'crown' check (faces in ('crown', 'skirt', 'either')),
  add constraint spec_ring_pin_or_angle check (pin_udeg is null or angle_udeg is null);
comment on column spec_ring.pin_udeg is 'where a pin in the groove holds its gap (two-stroke); null: it turns freely';
comment on column spec_ring.mark is 'the letters or dot on its face; empty: the sheet names none';
comment on column spec_ring.faces is 'where its marked face looks';

alter table spec_revision add column rail_offset_udeg bigint check (rail_offset_udeg >= 0 and rail_offset_udeg <= 180000000);
comment on column spec_revision.rail_offset_udeg is 'least angle of an oil rail''s gap from any other; null: as of the others';

-- One tick for all rings became what was seen of each (gaps.faces); this column tells whether all of it was as the sheet says.
alter table ring_placement rename column marks_up to marks_well;
