import { type CustodyPeriod, custodyFaults, type Holder } from '#domain/custody/holding.ts';
import { expectedSteps } from '#domain/tally/search-steps.ts';
import type { Facts } from './facts.ts';
import { checkPast } from './past.ts';
import type { World } from './world.ts';

/** Throws with a sentence when something that must hold does not. */
const must = (holds: boolean, words: string): void => {
  if (!holds) throw new Error(words);
};

/** One holder always: the ledger of every subject is without gap or overlap, as the database keeps it. */
async function checkLedger({ shop, names }: World): Promise<ReadonlyMap<string, readonly CustodyPeriod[]>> {
  const ids = names.engines.map(({ engineId }) => engineId);
  const rows = await shop.sql<
    {
      subject: string;
      holder: Holder;
      place: string | null;
      from: number;
      until: number | null;
      emptied: number | null;
    }[]
  >`
    select coalesce(c.engine_id, c.tray_id) as subject, c.place_id as place,
      case when c.person_id is not null then json_build_object('kind', 'person', 'personId', c.person_id)
           when c.rest_bay_id is not null then json_build_object('kind', 'bay', 'bayId', c.rest_bay_id)
           when c.vendor_id is not null then json_build_object('kind', 'vendor', 'vendorId', c.vendor_id)
           else json_build_object('kind', 'owner') end as holder,
      (extract(epoch from c.from_at) * 1000000)::bigint as "from", (extract(epoch from c.until_at) * 1000000)::bigint as until,
      (extract(epoch from t.emptied_at) * 1000000)::bigint as emptied
    from custody c left join tray t on t.id = c.tray_id left join job j on j.id = t.job_id
    where coalesce(c.engine_id, j.engine_id) = any(${ids}::uuid[]) order by c.from_at, c.id`;
  const ledger = new Map<string, readonly CustodyPeriod[]>();
  for (const subject of new Set(rows.map((row) => row.subject))) {
    const own = rows.filter((row) => row.subject === subject);
    const periods = own.map(({ holder, place, from, until }) => ({
      subjectId: subject,
      holder,
      placeBayId: place,
      from,
      until,
    }));
    const faults = custodyFaults(periods, own[0]?.emptied ?? null);
    must(faults.length === 0, `custody of ${names.key(subject)}: ${JSON.stringify(faults)}`);
    ledger.set(subject, periods);
  }
  return ledger;
}

/** Pieces are conserved: of every line, what came off is fitted, renewed, accounted for or loose, by the movements alone. */
async function checkPieces({ shop, names }: World): Promise<void> {
  const wrong = await shop.sql<{ id: string }[]>`
    select p.id from piece p join opening o on o.id = p.opening_id
    left join lateral (
      select coalesce(sum(m.count) filter (where m.act in ('off', 'found')), 0) as off,
             coalesce(sum(m.count) filter (where m.act = 'fitted'), 0) as fitted,
             coalesce(sum(m.count) filter (where m.act = 'renewed'), 0) as renewed,
             coalesce(sum(m.count) filter (where m.act = 'accounted'), 0) as accounted
      from piece_movement m where m.piece_id = p.id) m on true
    where o.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[])
      and ((p.off, p.fitted, p.renewed, p.accounted) is distinct from (m.off, m.fitted, m.renewed, m.accounted)
           or p.off < p.fitted + p.renewed + p.accounted
           or p.off - p.fitted - p.renewed - p.accounted <> p.with_engine
              + (select coalesce(sum(l.count), 0) from piece_in_tray l where l.piece_id = p.id))`;
  must(wrong.length === 0, `pieces not conserved: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/**
 * Nothing is closed with anything open or unchecked, unless a lead said by name and reason that it is; and never with a
 * layer off, with anything that may be inside, or with a rag that has not come out.
 */
async function checkClosings({ shop, names }: World): Promise<void> {
  const wrong = await shop.sql<{ id: string }[]>`
    select o.id from opening o
    where o.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[]) and o.closed_at is not null and (
      exists (select from piece p where p.opening_id = o.id and p.layer is not null and p.off > p.fitted + p.renewed + p.accounted)
      or exists (select from inside_search s where s.opening_id = o.id and s.opened_at <= o.closed_at
                 and (s.ended_at is null or s.ended_at > o.closed_at))
      or exists (select from put_in i where i.opening_id = o.id and i.came_out < i.count)
      or not exists (select from override v where v.opening_id = o.id) and (
        exists (select from piece p where p.opening_id = o.id
                and (p.off > p.fitted + p.renewed + p.accounted or p.expected > p.off))
        or exists (select from obligation b where b.engine_id = o.engine_id and b.inside and b.opened_at <= o.closed_at
                   and (b.discharged_at is null or b.discharged_at > o.closed_at))
        or exists (select from piece p where p.opening_id = o.id and p.off > 0 and not exists (
                     select from closing_check c where c.piece_id = p.id and c.checked_at <= o.closed_at and c.checked_at > greatest(
                       (select max(m.moved_at) from piece_movement m where m.piece_id = p.id and m.act <> 'moved'),
                       (select max(w.moved_at) from position_move w where w.piece_id = p.id))))
        or exists (select from put_in i where i.opening_id = o.id and not exists (
                     select from closing_check c where c.put_in_id = i.id and c.checked_at <= o.closed_at and c.checked_at >
                       (select max(a.acted_at) from put_in_act a where a.put_in_id = i.id)))))`;
  must(wrong.length === 0, `closed with something open: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/** What was put in balances: all of it came out, is being looked for, or is in; by the acts alone. */
async function checkPutIns({ shop, names }: World): Promise<void> {
  const wrong = await shop.sql<{ id: string }[]>`
    select i.id from put_in i join opening o on o.id = i.opening_id
    left join lateral (
      select coalesce(sum(a.count) filter (where a.act <> 'not found'), 0) as out,
             coalesce(sum(case a.act when 'not found' then a.count when 'taken out' then 0 else -a.count end), 0) as lost
      from put_in_act a where a.put_in_id = i.id) a on true
    where o.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[])
      and ((i.came_out, i.not_found) is distinct from (a.out, a.lost)
           or i.not_found < 0 or i.came_out < 0 or i.came_out + i.not_found > i.count)`;
  must(wrong.length === 0, `put in and out do not balance: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/** A search goes on exactly while something may be inside, and a lead decides only when it was searched to the end. */
async function checkSearches({ shop, names }: World): Promise<void> {
  const steps = expectedSteps.map(({ code }) => code);
  const wrong = await shop.sql<{ id: string }[]>`
    select s.id from inside_search s left join piece p on p.id = s.piece_id left join put_in i on i.id = s.put_in_id
    where s.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[]) and (
      (s.ended_at is null) <> (coalesce(p.inside, i.not_found) > 0)
      and not (s.ended_at is not null and exists (
        select from inside_search later where later.ended_at is null
          and (later.piece_id = s.piece_id or later.put_in_id = s.put_in_id)))
      or s.outcome = 'not inside' and not exists (
        select from inside_search decided where decided.outcome = 'not inside' and decided.ended_at <= s.ended_at
          and (decided.piece_id = s.piece_id or decided.put_in_id = s.put_in_id)
          and (select count(*) from search_tick t where t.search_id = decided.id and t.step_code = any(${steps})) = ${steps.length}))`;
  must(wrong.length === 0, `searches that stand wrong: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/** Racks: each piece in one place and each place one piece's, by the moves alone; and never more of them laid in a tray than lie in it. */
async function checkRacks({ shop, names }: World): Promise<void> {
  const wrong = await shop.sql<{ id: string }[]>`
    select p.id from piece p join opening o on o.id = p.opening_id
    join lateral (
      select count(*) as places, count(distinct at.code) as taken, count(*) filter (where fill.laid) as laid
      from piece_position s
      left join lateral (select m.at_code from position_move m where m.piece_id = p.id and m.code = s.code
                         order by m.moved_at desc, m.id desc limit 1) m on true
      cross join lateral (select coalesce(m.at_code, s.code) as code) at
      left join lateral (select f.laid from position_fill f where f.piece_id = p.id and f.code = s.code
                         order by f.filled_at desc, f.id desc limit 1) fill on true
      where s.piece_id = p.id) r on true
    where o.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[])
      and (r.taken < r.places or r.laid > p.off - p.fitted - p.renewed - p.accounted or exists (
        select from position_standing s where s.piece_id = p.id and s.laid group by s.tray_id
        having count(*) > case when s.tray_id is null then p.with_engine
          else coalesce((select i.count from piece_in_tray i where i.piece_id = p.id and i.tray_id = s.tray_id), 0) end))`;
  must(wrong.length === 0, `racks that stand wrong: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/** Everything that must hold of what stands, of both engines at once. */
export async function sweep(world: World, seen: Facts | undefined): Promise<void> {
  const ledger = await checkLedger(world);
  await checkPieces(world);
  await checkRacks(world);
  await checkPutIns(world);
  await checkSearches(world);
  await checkClosings(world);
  if (seen !== undefined) await checkPast(world, { seen, ledger });
}
