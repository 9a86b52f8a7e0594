import type { DemandLine } from '#contracts/demands.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { boughtAs, lineTables, partName } from '../ledger/queries.ts';

type RuleInForce = Omit<NonNullable<DemandLine['lotRule']>, 'thicknesses' | 'words'> & {
  readonly thicknessNm: readonly number[];
};

export type DemandRow = Omit<DemandLine, 'state' | 'expectedOn' | 'expectedFrom' | 'lotRule'> & {
  readonly lotRule: RuleInForce | null;
  /** What it has not got yet was asked for all or nothing. */
  readonly askedWhole: boolean;
};

/** All demand lines of these jobs, by part, each with its reasons and what is reserved for it. */
export async function findDemandLines(sql: Sql, jobIds: readonly string[]): Promise<readonly DemandRow[]> {
  return sql<DemandRow[]>`
    select d.id, d.job_id as "jobId", ${partName(sql)} as part, ${boughtAs(sql)} as "buyAs",
      d.wanted, d.reserved, d.short, d.issued, d.cancelled, d.not_asked as "notAsked", d.asked_whole as "askedWhole", d.short_since as "shortSince",
      (select coalesce(json_agg(json_build_object(
          'words', r.words, 'quantity', case when r.withdrawn_at is null then r.quantity - r.gone else r.quantity end, 'obligationId', r.obligation_id, 'withdrawn', r.withdrawn_at is not null,
          'kit', case when k.id is not null then json_build_object('id', k.id, 'name', k.name) end,
          'comesWith', case when c.id is not null then json_build_object('id', c.id, 'number', c.number, 'name', c.name) end
        ) order by r.added_at, r.id), '[]')
       from demand_reason r left join kit k on k.id = r.kit_id left join part c on c.id = r.parent_part_id
       where r.demand_line_id = d.id) as reasons,
      (select coalesce(json_agg(json_build_object(
          'lotId', l.id, 'lot', l.code, 'bin', b.code, 'grade', coalesce(nullif(l.grade, ''), o.grade),
          'againstRule', (select t.reason from lot_against_rule t where t.demand_line_id = d.id and t.lot_id = l.id
                          and t.rule_id = d.lot_rule_id order by t.taken_at desc limit 1),
          'instead', case when o.id <> d.part_id then json_build_object('id', o.id, 'number', o.number, 'name', o.name) end, 'quantity', v.quantity, 'expiresAt', v.expires_at
        ) order by b.walk_order, l.received_at, l.id), '[]')
       from reservation v join stock_lot l on l.id = v.lot_id join part o on o.id = l.part_id join bin b on b.id = l.bin_id
       where v.demand_line_id = d.id and v.quantity > 0) as held,
      case when lr.id is not null then json_build_object('rule', lr.rule, 'thicknessNm', lr.thickness_nm, 'othersAny', lr.others_any,
        'grade', lr.grade, 'cause', lr.cause, 'reason', lr.reason, 'at', lr.set_at,
        'by', (select w.name from person w where w.id = lr.set_by_id)) end as "lotRule"
    from ${lineTables(sql)}
    where d.job_id = any(${jobIds}::uuid[])
    order by d.job_id, p.name, p.number`;
}

export async function jobExists(sql: Sql, jobId: string): Promise<boolean> {
  return (await sql`select from job where id = ${jobId}`).length === 1;
}

export async function findKitForJob(sql: Sql, kitId: string, jobId: string) {
  const [kit] = await sql<
    { name: string; family: string; fits: boolean; lines: { partId: string; quantity: number }[] }[]
  >`
    select k.name, f.name as family,
      k.family_id = (select e.family_id from job j join engine e on e.id = j.engine_id where j.id = ${jobId}) as fits,
      (select coalesce(json_agg(json_build_object('partId', l.part_id, 'quantity', l.quantity) order by l.part_id), '[]')
       from kit_line l where l.kit_id = k.id) as lines
    from kit k join family f on f.id = k.family_id where k.id = ${kitId}`;
  return kit;
}

export interface PartToDemand {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  readonly retired: boolean;
  readonly successor: string | null;
  readonly companions: readonly { readonly partId: string; readonly quantity: number }[];
}

export async function findPartsToDemand(sql: Sql, ids: readonly string[]): Promise<readonly PartToDemand[]> {
  return sql<PartToDemand[]>`
    select p.id, p.number, p.name, p.retired_at is not null as retired,
      (select s.name || ' (' || s.number || ')' from part s where s.id = p.superseded_by_id) as successor,
      (select coalesce(json_agg(json_build_object('partId', c.companion_id, 'quantity', c.quantity) order by c.companion_id), '[]')
       from part_companion c join part cp on cp.id = c.companion_id where c.part_id = p.id and cp.retired_at is null) as companions
    from part p where p.id = any(${ids}::uuid[])`;
}

/** One reason why a part is wanted. */
export interface Wish {
  readonly partId: string;
  readonly quantity: number;
  readonly words: string;
  readonly kitId?: string | undefined;
  readonly obligationId?: string | undefined;
  readonly parentPartId?: string | undefined;
  /** Of a shim: the valve that it is for. */
  readonly valve?: string | undefined;
}

/** Adds wishes to a job's lines, one line a part, each wish kept as a reason. */
export async function insertWishes(
  sql: Sql,
  of: { readonly jobId: string; readonly wishes: readonly Wish[]; readonly byId: string },
): Promise<readonly { readonly id: string; readonly partId: string }[]> {
  const { wishes } = of;
  const sums = new Map<string, number>();
  for (const { partId, quantity } of wishes) sums.set(partId, (sums.get(partId) ?? 0) + quantity);
  const partIds = [...sums.keys()];
  return sql<{ id: string; partId: string }[]>`
    with line as (
      insert into demand_line as d (id, job_id, part_id, kit_id, wanted, not_asked, added_by_id)
      select w.id, ${of.jobId}, w.part, ${wishes[0]?.kitId ?? null}, w.count, w.count, ${of.byId}
      from unnest(${partIds.map(newId)}::uuid[], ${partIds}::uuid[], ${[...sums.values()]}::int[]) w (id, part, count)
      on conflict (job_id, part_id) do update set
        wanted = d.wanted + excluded.wanted, not_asked = d.not_asked + excluded.not_asked
      returning d.id, d.part_id
    ), reason as (
      insert into demand_reason (id, demand_line_id, quantity, kit_id, obligation_id, parent_part_id, valve_code, words)
      select r.id, line.id, r.count, r.kit, r.obligation, r.parent, r.valve, r.words
      from unnest(
        ${wishes.map(newId)}::uuid[], ${wishes.map((w) => w.partId)}::uuid[], ${wishes.map((w) => w.quantity)}::int[],
        ${wishes.map((w) => w.kitId ?? null)}::uuid[], ${wishes.map((w) => w.obligationId ?? null)}::uuid[],
        ${wishes.map((w) => w.parentPartId ?? null)}::uuid[], ${wishes.map((w) => w.valve ?? null)}::text[],
        ${wishes.map((w) => w.words)}::text[]
      ) r (id, part, count, kit, obligation, parent, valve, words)
      join line on line.part_id = r.part
    )
    select id, part_id as "partId" from line`;
}
