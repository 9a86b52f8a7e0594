import type { PartName } from '#contracts/parts.ts';
import type { LotsToChoose, OldStock, PartInstead } from '#contracts/parts-instead.ts';
import type { LotRule } from '#domain/stock/lot-rule.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { gotThicknesses, lineTables, lotRuleJson, partName, servedBy } from '../ledger/queries.ts';

export interface PartToTie {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly retired: boolean;
  readonly supersededById: string | null;
}

export async function findPartsToTie(sql: Sql, ids: readonly string[]): Promise<readonly PartToTie[]> {
  return sql<PartToTie[]>`
    select p.id, p.number, p.name, p.unit, p.retired_at is not null as retired, p.superseded_by_id as "supersededById"
    from part p where p.id = any(${ids}::uuid[])`;
}

export async function setSuccessor(
  sql: Sql,
  of: { readonly partId: string; readonly byPartId: string | null; readonly oldStock: OldStock },
): Promise<void> {
  await sql`
    update part set superseded_by_id = ${of.byPartId}, interchangeable = ${of.oldStock === 'use up'} where id = ${of.partId}`;
}

export interface Alternative {
  readonly partId: string;
  readonly otherId: string;
  /** Empty: it will not do any more. */
  readonly condition: string;
}

export async function insertAlternatives(sql: Sql, pairs: readonly Alternative[], byId: string): Promise<void> {
  await sql`
    insert into part_alternative (id, part_id, other_id, condition, told_by_id)
    select a.id, a.part, a.other, a.condition, ${byId}
    from unnest(${pairs.map(newId)}::uuid[], ${pairs.map((pair) => pair.partId)}::uuid[], ${pairs.map((pair) => pair.otherId)}::uuid[],
      ${pairs.map((pair) => pair.condition)}::text[]) a (id, part, other, condition)`;
}

/** On which condition one part will do in another's place; undefined: on none. */
export async function findCondition(
  sql: Sql,
  of: { readonly partId: string; readonly otherId: string },
): Promise<string | undefined> {
  const [row] = await sql<{ condition: string }[]>`
    select condition from part_alternative_now where part_id = ${of.partId} and other_id = ${of.otherId}`;
  return row?.condition;
}

const available = (sql: Sql) => sql`
  (select coalesce(sum(l.on_hand - l.reserved), 0)::int from stock_lot l where l.part_id = p.id and l.on_hand > 0)`;

const oldStock = (sql: Sql) => sql`case when o.interchangeable then 'use up' else 'new only' end`;

export async function findChain(sql: Sql, partId: string): Promise<PartInstead['chain']> {
  return sql<PartInstead['chain']>`
    with recursive chain (id, next, interchangeable, nth) as (
      select p.id, p.superseded_by_id, p.interchangeable, 1 from part p where p.id = ${partId}
      union all
      select p.id, p.superseded_by_id, p.interchangeable, c.nth + 1 from chain c join part p on p.id = c.next
    )
    select ${partName(sql)} as part, ${oldStock(sql)} as "oldStock", ${available(sql)} as available
    from chain o join part p on p.id = o.next order by o.nth`;
}

export async function findReplaced(sql: Sql, partId: string): Promise<PartInstead['replaces']> {
  return sql<PartInstead['replaces']>`
    select json_build_object('id', o.id, 'number', o.number, 'name', o.name) as part, ${oldStock(sql)} as "oldStock"
    from part o where o.superseded_by_id = ${partId} order by o.number`;
}

export async function findServing(sql: Sql, partId: string): Promise<PartName[]> {
  return sql<PartName[]>`
    select o.id, o.number, o.name from part p cross join unnest(${servedBy(sql)}) with ordinality s (id, nth)
      join part o on o.id = s.id
    where p.id = ${partId} order by s.nth`;
}

/**
 * Of these parts, and of all that share a chain of replacements with any of them: which parts serve each, in the order in
 * which they are used up.
 */
export async function findChains(
  sql: Sql,
  partIds: readonly string[],
): Promise<ReadonlyMap<string, readonly string[]>> {
  const rows = await sql<{ id: string; servedBy: readonly string[] }[]>`
    with recursive newer (id, next) as (
      select p.id, p.superseded_by_id from part p where p.id = any(${partIds}::uuid[])
      union
      select p.id, p.superseded_by_id from newer n join part p on p.id = n.next
    ), sharing (id) as (
      select id from newer
      union
      select p.id from sharing s join part p on p.superseded_by_id = s.id
    )
    select p.id, ${servedBy(sql)} as "servedBy" from sharing s join part p on p.id = s.id`;
  return new Map(rows.map(({ id, servedBy: parts }) => [id, parts]));
}

export async function findAlternatives(sql: Sql, partId: string): Promise<PartInstead['alternatives']> {
  return sql<PartInstead['alternatives']>`
    select ${partName(sql)} as part, n.condition, ${available(sql)} as available, w.name as by, w.told_at as at
    from part_alternative_now n join part p on p.id = n.other_id
      cross join lateral (
        select b.name, a.told_at from part_alternative a join person b on b.id = a.told_by_id
        where a.part_id = n.part_id and a.other_id = n.other_id order by a.told_at desc, a.id desc limit 1) w
    where n.part_id = ${partId} order by p.number`;
}

export async function findAlternativeTo(sql: Sql, partId: string): Promise<PartInstead['alternativeTo']> {
  return sql<PartInstead['alternativeTo']>`
    select ${partName(sql)} as part, n.condition from part_alternative_now n join part p on p.id = n.part_id
    where n.other_id = ${partId} order by p.number`;
}

type LotToChoose = LotsToChoose['items'][number];
export type LotToChooseRow = Omit<LotToChoose, 'thickness' | 'meetsRule'> & {
  readonly shimNm: number | null;
  readonly rule: LotRule;
  readonly open: number;
  readonly gotNm: readonly number[];
};

/** Lots with something free that a line may be served from: its own and what replaced it first, then alternatives. */
export async function findLotsToChoose(sql: Sql, lineId: string): Promise<readonly LotToChooseRow[]> {
  return sql<LotToChooseRow[]>`
    with line as (
      select d.part_id, ${servedBy(sql)} as served_by, ${lotRuleJson(sql)} as rule, d.short + d.not_asked as open,
        ${gotThicknesses(sql)} as got from ${lineTables(sql)} where d.id = ${lineId}
    ), fit as (
      select s.part_id, s.nth, null as condition, line.part_id as wanted, line.rule, line.open, line.got
      from line cross join unnest(line.served_by) with ordinality s (part_id, nth)
      union all
      select a.other_id, 1000, a.condition, line.part_id, line.rule, line.open, line.got from line join part_alternative_now a on a.part_id = line.part_id
      where a.other_id <> all(line.served_by)
    )
    select l.id as "lotId", ${partName(sql)} as part,
      case when f.condition is not null then 'alternative' when l.part_id = f.wanted then 'own' else 'replacement' end as standing,
      f.condition as "onCondition", l.code, b.code as bin, l.serial, coalesce(l.shim_nm, p.shim_nm) as "shimNm",
      coalesce(nullif(l.grade, ''), p.grade) as grade, f.rule, f.open, f.got as "gotNm", l.used,
      l.condition as measured, l.on_hand - l.reserved as available, l.received_at as "receivedAt"
    from fit f join stock_lot l on l.part_id = f.part_id and l.on_hand > 0 and l.on_hand > l.reserved
      join part p on p.id = l.part_id join bin b on b.id = l.bin_id
    order by f.nth, p.number, l.used, l.received_at, l.id`;
}

export async function lineExists(sql: Sql, lineId: string): Promise<boolean> {
  return (await sql`select from demand_line where id = ${lineId}`).length === 1;
}

export async function insertAlternativeTaken(
  sql: Sql,
  taken: {
    readonly demandLineId: string;
    readonly lotId: string;
    readonly quantity: number;
    readonly condition: string;
    readonly reason: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`
    insert into alternative_taken (id, demand_line_id, lot_id, quantity, condition, reason, taken_by_id)
    values (${newId()}, ${taken.demandLineId}, ${taken.lotId}, ${taken.quantity}, ${taken.condition}, ${taken.reason}, ${taken.byId})`;
}
