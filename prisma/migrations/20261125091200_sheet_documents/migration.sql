-- A draft is written as a whole by one person at a time; beside its rows the sheet is kept as its source prints it.

alter table spec_revision
  add column version  integer not null default 1 check (version > 0),
  add column document json,
  add constraint spec_revision_one_draft
    exclude using btree (family_id with =) where (published_at is null) deferrable initially deferred;

comment on column spec_revision.document is 'the sheet in our documented shape, in the digits and units of its source; null: only its rows are known';
