-- From whom a part is bought where nobody says otherwise; empty: who priced it last, else who sold it last.
alter table part add column usual_vendor_id uuid references vendor;
comment on column part.usual_vendor_id is 'from whom it is bought unless somebody says otherwise';
create index part_usual_vendor on part (usual_vendor_id) where usual_vendor_id is not null;
