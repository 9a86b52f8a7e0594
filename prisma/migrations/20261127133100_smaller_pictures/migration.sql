-- The two smaller pictures made of a photo, by their own hashes: what a list shows is held against what was stored, too.
-- Of photos added before this none is known: theirs are checked to be whole pictures.

create table file_part (
  hash      text not null check (hash ~ '^[0-9a-f]{64}$'),
  part      text not null check (part in ('small', 'large')),
  part_hash text not null check (part_hash ~ '^[0-9a-f]{64}$'),
  primary key (hash, part)
);
comment on column file_part.hash is 'of the content it was made of, as in photo';
