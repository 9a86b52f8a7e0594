import type { CustodyPeriod as PeriodOnWire } from '#contracts/custody.ts';
import { type CustodyPeriod, custodyFaults, type Holder, heldAt } from '#domain/custody/holding.ts';
import type { Facts } from './facts.ts';
import type { World } from './world.ts';

/** Throws with a sentence when something that must hold does not. */
const must = (holds: boolean, words: string): void => {
  if (!holds) throw new Error(words);
};

/** One holder always: the ledger of every subject is without gap or overlap, as the database keeps it. */
export async function checkLedger({ shop, names }: World): Promise<ReadonlyMap<string, readonly CustodyPeriod[]>> {
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
export async function checkPieces({ shop, names }: World): Promise<void> {
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

/** Nothing is closed with anything open, unless a lead said by name and reason that it is; and never with a layer off. */
export async function checkClosings({ shop, names }: World): Promise<void> {
  const wrong = await shop.sql<{ id: string }[]>`
    select o.id from opening o
    where o.engine_id = any(${names.engines.map(({ engineId }) => engineId)}::uuid[]) and o.closed_at is not null and (
      exists (select from piece p where p.opening_id = o.id and p.layer is not null and p.off > p.fitted + p.renewed + p.accounted)
      or exists (select from inside_search s where s.opening_id = o.id and s.opened_at <= o.closed_at
                 and (s.ended_at is null or s.ended_at > o.closed_at))
      or not exists (select from override v where v.opening_id = o.id) and (
        exists (select from piece p where p.opening_id = o.id
                and (p.off > p.fitted + p.renewed + p.accounted or p.expected > p.off))
        or exists (select from obligation b where b.engine_id = o.engine_id and b.inside and b.opened_at <= o.closed_at
                   and (b.discharged_at is null or b.discharged_at > o.closed_at))))`;
  must(wrong.length === 0, `closed with something open: ${wrong.map(({ id }) => names.key(id)).join(', ')}`);
}

/** Asked who held what then, the service answers what was seen then, and what the ledger says when it is replayed. */
export async function checkPast(
  world: World,
  { seen, ledger }: { seen: Facts; ledger: ReadonlyMap<string, readonly CustodyPeriod[]> },
): Promise<void> {
  const { shop, names } = world;
  for (const [index, { engineId }] of names.engines.entries()) {
    const at = encodeURIComponent(seen.at);
    const items: PeriodOnWire[] = (await shop.as.clerk.get(`/api/engines/${engineId}/custody?at=${at}`)).body.items;
    const whole: PeriodOnWire[] = (await shop.as.clerk.get(`/api/custody?engineId=${engineId}&at=${at}`)).body.items;
    const idsOf = (periods: readonly PeriodOnWire[]) =>
      periods
        .map(({ id }) => id)
        .toSorted()
        .join(' ');
    must(idsOf(items) === idsOf(whole), `the shop and the engine tell otherwise who held what at ${seen.at}`);
    const key = (id: string) => (id === engineId ? 'engine' : names.key(id));
    const told = items
      .map(({ subject, holder, place }) => {
        const where = place === null ? 'no bay' : key(place.id);
        return `${key(subject.id)}: ${key(holder.id)} in ${where}`;
      })
      .toSorted();
    const then = seen.engines[index]?.custody ?? [];
    must(
      JSON.stringify(told) === JSON.stringify(then),
      `who held what at ${seen.at}: told ${told.join('; ')}, seen ${then.join('; ')}`,
    );
    for (const { subject, from } of items) {
      const instant =
        Number(BigInt(Math.round(Date.parse(seen.at))) * 1000n) +
        Number(seen.at.match(/\.\d{3}(\d{1,3})/)?.[1]?.padEnd(3, '0') ?? 0);
      const period = heldAt(ledger.get(subject.id) ?? [], instant);
      must(
        period !== undefined,
        `the ledger has nobody hold ${key(subject.id)} at ${seen.at}, the service since ${from}`,
      );
    }
  }
}
