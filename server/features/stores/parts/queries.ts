import type { JobName, Part, PartName } from '#contracts/parts.ts';
import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';
import { jobName, partName } from '../ledger/queries.ts';

export interface LotRow {
  readonly id: string;
  readonly code: string;
  readonly bin: string;
  readonly shimNm: number | null;
  readonly grade: string;
  readonly serial: string | null;
  readonly used: boolean;
  readonly condition: string;
  readonly onHand: number;
  readonly reserved: number;
  readonly receivedAt: string;
}

export interface PartRow {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  readonly familyId: string | null;
  readonly placeCode: string | null;
  readonly sizeClass: string | null;
  readonly grade: string;
  readonly shimNm: number | null;
  readonly shimDiameterNm: number | null;
  readonly oneTime: boolean;
  readonly fastenerSet: string | null;
  readonly unit: Part['unit'];
  readonly bySerial: boolean;
  /** What all that is on hand is worth together. */
  readonly valueMinor: number;
  readonly priceMinor: number;
  readonly coreMinor: number;
  readonly reorderPoint: number;
  readonly retired: boolean;
  readonly supersededBy: PartName | null;
  readonly coming: number;
  readonly lots: readonly LotRow[];
}

const partColumns = (sql: Sql) => sql`
  p.id, p.number, p.name, p.family_id as "familyId", p.place_code as "placeCode", p.size_class as "sizeClass", p.grade,
  p.shim_nm as "shimNm", p.shim_diameter_nm as "shimDiameterNm", p.one_time as "oneTime", p.fastener_set as "fastenerSet", p.unit, p.by_serial as "bySerial",
  coalesce((select v.value_minor from part_value v where v.part_id = p.id), 0) as "valueMinor", p.price_minor as "priceMinor", p.core_minor as "coreMinor",
  p.reorder_point as "reorderPoint", p.retired_at is not null as retired,
  (select json_build_object('id', s.id, 'number', s.number, 'name', s.name) from part s where s.id = p.superseded_by_id) as "supersededBy",
  (select coalesce(sum(pl.quantity - pl.received), 0)::int from purchase_line pl where pl.part_id = p.id and pl.received < pl.quantity) as coming,
  (select coalesce(json_agg(json_build_object(
      'id', l.id, 'code', l.code, 'bin', b.code, 'shimNm', l.shim_nm, 'grade', l.grade, 'serial', l.serial, 'used', l.used, 'condition', l.condition,
      'onHand', l.on_hand, 'reserved', l.reserved, 'receivedAt', l.received_at) order by l.received_at, l.id), '[]')
   from stock_lot l join bin b on b.id = l.bin_id where l.part_id = p.id and l.on_hand > 0) as lots`;

export interface PartSearch {
  readonly search?: string | undefined;
  readonly familyId?: string | undefined;
  readonly placeCode?: string | undefined;
  readonly shims?: boolean | undefined;
  readonly thicknessNm?: number | undefined;
  readonly afterNumber?: string | undefined;
  readonly limit: number;
}

/** Every word has to be there, anywhere: in the number, the name, or a number that a vendor has for the part. */
const found = (sql: Sql, search: string) => sql`
  and p.id in (select w.part_id from part_words w
    where w.words like all(${search.split(/\s+/).map((word) => containing(word.toLowerCase()))}::text[]))`;

/** Parts by number, each with its lots that hold something. What is not asked for is not in the statement: the page before ends it. */
export async function findParts(sql: Sql, wanted: PartSearch): Promise<readonly PartRow[]> {
  const { search, familyId, placeCode, shims, thicknessNm, afterNumber } = wanted;
  const none = sql``;
  return sql<PartRow[]>`
    select ${partColumns(sql)} from part p
    where true
      ${search === undefined ? none : found(sql, search)}
      ${familyId === undefined ? none : sql`and (p.family_id = ${familyId} or p.family_id is null)`}
      ${placeCode === undefined ? none : sql`and p.place_code = ${placeCode}`}
      ${shims === undefined ? none : sql`and (p.shim_nm is not null) = ${shims}`}
      ${thicknessNm === undefined ? none : sql`and p.shim_nm = ${thicknessNm}`}
      ${afterNumber === undefined ? none : sql`and p.number > ${afterNumber}`}
    order by p.number limit ${wanted.limit}`;
}

export async function findPartById(sql: Sql, id: string): Promise<PartRow | undefined> {
  const [part] = await sql<PartRow[]>`select ${partColumns(sql)} from part p where p.id = ${id}`;
  return part;
}

export interface HolderRow {
  readonly demandLineId: string;
  readonly lotId: string;
  readonly job: JobName;
  readonly quantity: number;
  readonly promisedOn: string | null;
  readonly expiresAt: string | null;
}

export async function findHolders(sql: Sql, partId: string): Promise<HolderRow[]> {
  return sql<HolderRow[]>`
    select r.demand_line_id as "demandLineId", r.lot_id as "lotId", ${jobName(sql)} as job, r.quantity,
           jp.ready_on as "promisedOn", r.expires_at as "expiresAt"
    from demand_line d join reservation r on r.demand_line_id = d.id and r.quantity > 0 join job j on j.id = d.job_id
      left join job_promise jp on jp.job_id = j.id
    where d.part_id = ${partId} and d.reserved > 0 order by jp.ready_on nulls last, r.id`;
}

export async function findCompanions(sql: Sql, partId: string) {
  return sql<{ part: PartName; quantity: number }[]>`
    select ${partName(sql)} as part, c.quantity from part_companion c join part p on p.id = c.companion_id
    where c.part_id = ${partId} order by p.number`;
}

export interface MovementRow {
  readonly id: string;
  readonly lotId: string;
  readonly act: string;
  readonly onHandChange: number;
  readonly reservedChange: number;
  readonly valueChange: number;
  readonly jobNumber: number | null;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

/** Where the last page ended: its last movement's instant and id. */
interface MovementMark {
  readonly at: string;
  readonly id: string;
}

/** A part's movements, newest first (stock_movement_part). */
export async function findMovements(
  sql: Sql,
  of: { readonly partId: string; readonly after: MovementMark | undefined; readonly limit: number },
): Promise<readonly MovementRow[]> {
  return sql<MovementRow[]>`
    select m.id, m.lot_id as "lotId", m.act, m.on_hand_change as "onHandChange", m.reserved_change as "reservedChange",
           m.value_change as "valueChange", j.number as "jobNumber", m.reason, coalesce(w.name, '') as by, m.moved_at as at
    from stock_movement m left join person w on w.id = m.moved_by_id
      left join job j on j.id = m.job_id
    where m.part_id = ${of.partId}
      ${of.after === undefined ? sql`` : sql`and (m.moved_at, m.id) < (${of.after.at}::timestamptz, ${of.after.id}::uuid)`}
    order by m.moved_at desc, m.id desc limit ${of.limit}`;
}

export interface KitRow {
  readonly id: string;
  readonly familyId: string;
  readonly name: string;
  readonly lines: { readonly part: PartName; readonly quantity: number; readonly available: number }[];
}

export async function findKits(sql: Sql, familyId: string | undefined): Promise<KitRow[]> {
  return sql<KitRow[]>`
    select k.id, k.family_id as "familyId", k.name,
      (select coalesce(json_agg(json_build_object('part', ${partName(sql)}, 'quantity', kl.quantity, 'available',
          (select coalesce(sum(l.on_hand - l.reserved), 0) from stock_lot l where l.part_id = p.id and l.on_hand > 0)) order by p.number), '[]')
       from kit_line kl join part p on p.id = kl.part_id where kl.kit_id = k.id) as lines
    from kit k where ${familyId ?? null}::uuid is null or k.family_id = ${familyId ?? null} order by k.name, k.id`;
}

/** How many can be had from the bins of each size class that fits a place of a family. */
export async function findAvailableBySize(
  sql: Sql,
  of: { readonly familyId: string; readonly placeCode: string },
): Promise<readonly { readonly sizeClass: string; readonly available: number }[]> {
  return sql`
    select coalesce(p.size_class, 'standard') as "sizeClass", coalesce(sum(l.on_hand - l.reserved), 0)::int as available
    from part p left join stock_lot l on l.part_id = p.id
    where p.family_id = ${of.familyId} and p.place_code = ${of.placeCode} and p.retired_at is null
    group by 1 order by 1`;
}

export interface PartOfSize {
  readonly familyId: string;
  readonly placeCode: string;
  readonly sizeClass: string;
}

export async function findPartOfSize(sql: Sql, of: PartOfSize): Promise<PartName | null> {
  const [row] = await sql<{ part: PartName }[]>`
    select ${partName(sql)} as part from part p
    where p.family_id = ${of.familyId} and p.place_code = ${of.placeCode} and coalesce(p.size_class, 'standard') = ${of.sizeClass}
      and p.retired_at is null
    order by p.superseded_by_id is not null, p.number limit 1`;
  return row?.part ?? null;
}
