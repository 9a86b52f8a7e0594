-- A piece that was sent back and replaced left two cores owed, before what goes back took its own with it. What is owed beyond
-- the pieces that are here, and was neither sent nor credited, is lifted, the newest first, in the name of who sent back last.
insert into core_lifted (id, core_id, quantity, words, lifted_by_id)
select gen_random_uuid(), o.id, least(o.quantity, o.over - o.newer), 'owed twice: its piece was sent back and replaced', o.by_id
from (
  select c.id, c.quantity, pl.over, back.done_by_id as by_id,
    (sum(c.quantity) over (partition by c.purchase_line_id order by c.owed_at desc, c.id desc) - c.quantity)::int as newer
  from (
    select p.id, (select sum(n.quantity) from core_now n where n.purchase_line_id = p.id)::int - p.received as over from purchase_line p
  ) pl
    join core_now c on c.purchase_line_id = pl.id and c.quantity > 0 and not exists (select from core_mark m where m.core_id = c.id)
    cross join lateral (
      select f.done_by_id from purchase_fact f where f.purchase_line_id = pl.id and f.kind = 'sent back'
      order by f.done_at desc, f.id desc limit 1) back
  where pl.over > 0
) o where o.newer < o.over;
