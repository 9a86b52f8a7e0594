-- A reason may go in part: of four that a decision asked for, one was cancelled by hand. All of it gone, it is withdrawn.
alter table demand_reason add column gone integer not null default 0;
alter table demand_reason add constraint demand_reason_gone check (gone >= 0 and (gone < quantity or withdrawn_at is not null));
comment on column demand_reason.gone is 'pieces of it that are not wanted any more';
