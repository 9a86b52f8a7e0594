-- A piece as people tell it from its like: by its name and where it sits.
create function piece_name(p piece) returns text language sql immutable as $$
  select p.name || case when p.from_where = '' then '' else ', ' || p.from_where end
$$;
