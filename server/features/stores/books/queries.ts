import type { ChangeBin } from '#contracts/stock-books.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface KnownPart {
  readonly id: string;
  readonly number: string;
  readonly shim: boolean;
  readonly unit: string;
  readonly bySerial: boolean;
  readonly moved: boolean;
  readonly retired: boolean;
}

/** Parts by their numbers, small and large letters alike. */
export async function findPartsByNumber(sql: Sql, numbers: readonly string[]): Promise<readonly KnownPart[]> {
  return sql<KnownPart[]>`
    select p.id, p.number, p.shim_nm is not null as shim, p.unit, p.by_serial as "bySerial",
      exists (select from stock_movement m where m.part_id = p.id) as moved, p.retired_at is not null as retired
    from part p where lower(p.number) = any(${numbers.map((number) => number.toLowerCase())}::text[])`;
}

/** Locks parts by their numbers, in the order of their ids: what is read of their stock from now on is not opened by another. */
export async function lockPartsByNumber(sql: Sql, numbers: readonly string[]): Promise<void> {
  await sql`
    select p.id from part p where lower(p.number) = any(${numbers.map((number) => number.toLowerCase())}::text[])
    order by p.id for no key update`;
}

export async function findBinsByCode(sql: Sql, codes: readonly string[]) {
  return sql<{ id: string; code: string; closed: boolean }[]>`
    select id, code, closed_at is not null as closed from bin
    where lower(code) = any(${codes.map((code) => code.toLowerCase())}::text[])`;
}

/** Codes of the fastener sets that sheets of a family have. */
export async function findFastenerSets(sql: Sql) {
  return sql<{ familyId: string; codes: string[] }[]>`
    select r.family_id as "familyId", array_agg(distinct s.code) as codes
    from spec_fastener_set s join spec_revision r on r.id = s.revision_id group by r.family_id`;
}

export async function findFamilyCodes(sql: Sql) {
  return sql<{ id: string; code: string }[]>`select id, code from family`;
}

export interface OpeningLot {
  readonly partId: string;
  readonly binId: string;
  readonly code: string;
  readonly shimNm: number | null;
  readonly grade: string;
  readonly serial: string | null;
  readonly condition: string;
  readonly quantity: number;
  readonly valueMinor: number;
}

/** New lots and the movements that fill them; parts in the order of their ids, so that two such files cannot block each other. */
export async function insertOpening(sql: Sql, lots: readonly OpeningLot[], byId: string): Promise<void> {
  const ordered = lots.toSorted((a, b) => (a.partId < b.partId ? -1 : 1)).map((lot) => ({ ...lot, id: newId() }));
  await sql`
    insert into stock_lot (id, part_id, bin_id, code, shim_nm, serial, used, condition, grade)
    select l.id, l.part, l.bin, l.code, l.shim, l.serial, l.condition <> '', l.condition, l.grade
    from unnest(${ordered.map((l) => l.id)}::uuid[], ${ordered.map((l) => l.partId)}::uuid[], ${ordered.map((l) => l.binId)}::uuid[],
      ${ordered.map((l) => l.code)}::text[], ${ordered.map((l) => l.shimNm)}::bigint[], ${ordered.map((l) => l.serial)}::text[],
      ${ordered.map((l) => l.condition)}::text[], ${ordered.map((l) => l.grade)}::text[]) l (id, part, bin, code, shim, serial, condition, grade)`;
  await sql`
    insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, reason, moved_by_id)
    select m.id, m.lot, 'receive', m.quantity, 0, m.value, 'opening balance', ${byId}
    from unnest(${ordered.map(newId)}::uuid[], ${ordered.map((l) => l.id)}::uuid[], ${ordered.map((l) => l.quantity)}::int[],
      ${ordered.map((l) => l.valueMinor)}::bigint[]) m (id, lot, quantity, value)`;
}

export interface PartFacts {
  readonly number: string;
  readonly name: string;
  readonly unit: string | null;
  readonly familyId: string | null;
  readonly placeCode: string | null;
  readonly sizeClass: string | null;
  readonly grade: string | null;
  readonly shimNm: number | null;
  readonly shimDiameterNm: number | null;
  readonly oneTime: boolean | null;
  /** Code of the set on its family's sheets that it is one fastener of. */
  readonly fastenerSet: string | null;
  readonly bySerial: boolean | null;
  readonly priceMinor: number | null;
  readonly coreMinor: number | null;
  readonly reorderPoint: number | null;
}

/** The driver sends arrays of booleans as something else. */
const wordOf = (yes: boolean | null): string | null => (yes === null ? null : String(yes));

/** Numbers of the parts that were added, and of those that differ from what they were. */
export interface PartsWritten {
  readonly added: readonly string[];
  readonly changed: readonly string[];
}

/** Adds parts, or changes those whose number is known; what a row leaves empty stays as it was. */
export async function upsertParts(sql: Sql, parts: readonly PartFacts[]): Promise<PartsWritten> {
  const rows = await sql<{ number: string; added: boolean }[]>`
    with given as (
      select * from unnest(
        ${parts.map(newId)}::uuid[], ${parts.map((p) => p.number)}::text[], ${parts.map((p) => p.name)}::text[], ${parts.map((p) => p.unit)}::text[],
        ${parts.map((p) => p.familyId)}::uuid[], ${parts.map((p) => p.placeCode)}::text[], ${parts.map((p) => p.sizeClass)}::text[],
        ${parts.map((p) => p.grade)}::text[], ${parts.map((p) => p.shimNm)}::bigint[], ${parts.map((p) => p.shimDiameterNm)}::bigint[],
        ${parts.map((p) => wordOf(p.oneTime))}::text[], ${parts.map((p) => p.fastenerSet)}::text[], ${parts.map((p) => wordOf(p.bySerial))}::text[], ${parts.map((p) => p.priceMinor)}::bigint[],
        ${parts.map((p) => p.coreMinor)}::bigint[], ${parts.map((p) => p.reorderPoint)}::int[]
      ) g (id, number, name, unit, family_id, place_code, size_class, grade, shim_nm, shim_diameter_nm, one_time, fastener_set, by_serial, price_minor, core_minor, reorder_point)
    ), changed as (
      update part p set name = g.name, unit = coalesce(g.unit, p.unit), family_id = coalesce(g.family_id, p.family_id),
        place_code = coalesce(g.place_code, p.place_code), size_class = coalesce(g.size_class, p.size_class),
        grade = coalesce(g.grade, p.grade), shim_nm = coalesce(g.shim_nm, p.shim_nm),
        shim_diameter_nm = coalesce(g.shim_diameter_nm, p.shim_diameter_nm), one_time = coalesce(g.one_time::boolean, p.one_time),
        fastener_set = coalesce(g.fastener_set, p.fastener_set),
        by_serial = coalesce(g.by_serial::boolean, p.by_serial), price_minor = coalesce(g.price_minor, p.price_minor),
        core_minor = coalesce(g.core_minor, p.core_minor), reorder_point = coalesce(g.reorder_point, p.reorder_point)
      from given g where lower(p.number) = lower(g.number)
        and (p.name, p.unit, p.family_id, p.place_code, p.size_class, p.grade, p.shim_nm, p.shim_diameter_nm, p.one_time, p.fastener_set,
             p.by_serial, p.price_minor, p.core_minor, p.reorder_point)
          is distinct from
            (g.name, coalesce(g.unit, p.unit), coalesce(g.family_id, p.family_id), coalesce(g.place_code, p.place_code),
             coalesce(g.size_class, p.size_class), coalesce(g.grade, p.grade), coalesce(g.shim_nm, p.shim_nm),
             coalesce(g.shim_diameter_nm, p.shim_diameter_nm), coalesce(g.one_time::boolean, p.one_time),
             coalesce(g.fastener_set, p.fastener_set), coalesce(g.by_serial::boolean, p.by_serial),
             coalesce(g.price_minor, p.price_minor),
             coalesce(g.core_minor, p.core_minor), coalesce(g.reorder_point, p.reorder_point))
      returning p.number
    ), added as (
      insert into part (id, number, name, unit, family_id, place_code, size_class, grade, shim_nm, shim_diameter_nm, one_time, fastener_set, by_serial, price_minor, core_minor, reorder_point)
      select g.id, g.number, g.name, coalesce(g.unit, 'piece'), g.family_id, g.place_code, g.size_class, coalesce(g.grade, ''), g.shim_nm,
        g.shim_diameter_nm, coalesce(g.one_time::boolean, false), g.fastener_set, coalesce(g.by_serial::boolean, false), coalesce(g.price_minor, 0), coalesce(g.core_minor, 0), coalesce(g.reorder_point, 0)
      from given g where not exists (select from part p where lower(p.number) = lower(g.number)) returning number
    )
    select number, false as added from changed union all select number, true from added`;
  const numbers = (of: boolean) => rows.filter(({ added }) => added === of).map(({ number }) => number);
  return { added: numbers(true), changed: numbers(false) };
}

export interface PartLine extends Omit<PartFacts, 'familyId'> {
  readonly family: string | null;
  readonly retired: boolean;
  readonly supersededBy: string | null;
  readonly interchangeable: boolean;
  /** What goes with it. */
  readonly companions: readonly { readonly number: string; readonly count: number }[];
  readonly alternatives: readonly { readonly number: string; readonly condition: string }[];
}

/** Rows that a file is written from are fetched so many at a time, when the last ones are on their way. */
export const batch = 1_000;

export function readAllParts(sql: Sql): AsyncIterable<readonly PartLine[]> {
  return sql<PartLine[]>`
    select p.number, p.name, p.unit, f.code as family, p.place_code as "placeCode", p.size_class as "sizeClass", p.grade,
      p.shim_nm as "shimNm", p.shim_diameter_nm as "shimDiameterNm", p.one_time as "oneTime", p.fastener_set as "fastenerSet",
      p.by_serial as "bySerial", p.price_minor as "priceMinor", p.core_minor as "coreMinor", p.reorder_point as "reorderPoint", p.retired_at is not null as retired,
      s.number as "supersededBy", p.interchangeable, coalesce(a.others, '[]') as alternatives, coalesce(w.others, '[]') as companions
    from part p left join part s on s.id = p.superseded_by_id
      left join (
        select n.part_id, json_agg(json_build_object('number', o.number, 'condition', n.condition) order by o.number) as others
        from part_alternative_now n join part o on o.id = n.other_id group by n.part_id) a on a.part_id = p.id
      left join (
        select c.part_id, json_agg(json_build_object('number', o.number, 'count', c.quantity) order by o.number) as others
        from part_companion c join part o on o.id = c.companion_id group by c.part_id) w on w.part_id = p.id
      left join family f on f.id = p.family_id order by p.number`.cursor(batch);
}

export interface StockLine {
  readonly part: string;
  readonly bin: string;
  readonly lot: string;
  readonly quantity: number;
  readonly reserved: number;
  readonly shimNm: number | null;
  readonly grade: string;
  readonly serial: string | null;
  readonly condition: string;
  readonly partOnHand: number;
  readonly partValue: number;
}

/** Every lot that holds something, in the order of the walk past the bins. */
export function readAllStock(sql: Sql): AsyncIterable<readonly StockLine[]> {
  return sql<StockLine[]>`
    select p.number as part, b.code as bin, l.code as lot, l.on_hand as quantity, l.reserved, l.shim_nm as "shimNm", l.grade, l.serial,
      l.condition, v.on_hand as "partOnHand", v.value_minor as "partValue"
    from stock_lot l join part p on p.id = l.part_id join bin b on b.id = l.bin_id join part_value v on v.part_id = p.id
    where l.on_hand > 0 order by b.walk_order, b.code, p.number, l.received_at, l.id`.cursor(batch);
}

export async function insertBin(sql: Sql, bin: { readonly code: string; readonly walkOrder: number | undefined }) {
  const [row] = await sql<{ id: string; code: string; walkOrder: number; closed: boolean }[]>`
    insert into bin (id, code, walk_order)
    values (${newId()}, ${bin.code}, coalesce(${bin.walkOrder ?? null}::int, (select coalesce(max(walk_order), 0) + 10 from bin)))
    returning id, code, walk_order as "walkOrder", closed_at is not null as closed`;
  return row;
}

export async function updateBin(sql: Sql, bin: ChangeBin & { readonly id: string }) {
  const [row] = await sql<{ id: string; code: string; walkOrder: number; closed: boolean }[]>`
    update bin set code = coalesce(${bin.code ?? null}, code), walk_order = coalesce(${bin.walkOrder ?? null}::int, walk_order),
      closed_at = case ${bin.closed ?? null}::boolean when true then coalesce(closed_at, clock_timestamp()) when false then null else closed_at end
    where id = ${bin.id} returning id, code, walk_order as "walkOrder", closed_at is not null as closed`;
  return row;
}
