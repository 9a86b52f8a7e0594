-- Ratios of two dimensions, figures that the sheet itself states, and guard bands of a stated multiple of u.

alter table spec_dimension
  add column numerator   text,
  add column denominator text,
  add column scale       bigint check (scale > 0),
  add column stated      bigint;

comment on column spec_dimension.scale is 'the numerator is told at this much of the denominator, in its base unit; none: a plain ratio';
comment on column spec_dimension.stated is 'a figure that the sheet gives, base unit of the kind; nothing is measured';

alter table spec_dimension drop constraint spec_dimension_method_check;
alter table spec_dimension add constraint spec_dimension_method_check check (
  method in ('single', 'maximum', 'minimum', 'range', 'mean', 'size', 'out-of-round', 'taper', 'difference', 'ratio', 'stated', 'interval', 'felt')
);
alter table spec_dimension add constraint spec_dimension_ratio_check check (
  (method = 'ratio') = (numerator is not null and denominator is not null)
  and (method = 'ratio' or scale is null)
);
alter table spec_dimension add constraint spec_dimension_stated_check check ((method = 'stated') = (stated is not null));

alter table spec_dimension drop constraint spec_dimension_decision_rule_check;
alter table spec_dimension add constraint spec_dimension_decision_rule_check check (
  decision_rule in ('iso-14253-1-2017', 'iso-14253-1-1998', 'simple')
  or decision_rule ~ '^guard-factor-[0-6](\.[0-9]{1,3})?$'
);
