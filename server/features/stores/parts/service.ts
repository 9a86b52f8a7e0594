import type { Kit, Lot, Movement, Part, PartName, PartSheet, PartsQuery } from '#contracts/parts.ts';
import { averageValue, type StockValue, takeAtAverage } from '#domain/stock/value.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { afterCursor, cursorOf } from '#platform/cursor.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findCurrency } from '../ledger/queries.ts';
import {
  findAvailableBySize,
  findCompanions,
  findHolders,
  findKits,
  findMovements,
  findPartById,
  findPartOfSize,
  findParts,
  type LotRow,
  type MovementRow,
  type PartOfSize,
  type PartRow,
} from './queries.ts';
import { millimetresOrNull } from './thickness.ts';

const PAGE = 50;

/** Money, or nothing for those who may not see it. */
type Price = (minor: number) => { minor: string; currency: string } | null;
async function pricesFor(sql: Sql, seesMoney: boolean): Promise<Price> {
  if (!seesMoney) return () => null;
  const currency = await findCurrency(sql);
  return (minor) => ({ minor: String(minor), currency });
}

const lotOf = ({ shimNm, ...row }: LotRow, worth: StockValue, price: Price): Lot => {
  const share = row.onHand === 0 ? undefined : takeAtAverage(worth, row.onHand);
  return {
    ...row,
    thickness: millimetresOrNull(shimNm),
    available: row.onHand - row.reserved,
    value: price(share?.ok === true ? Number(share.moved) : 0),
  };
};

function partOf(
  { shimNm, shimDiameterNm, priceMinor, coreMinor, valueMinor, lots, ...row }: PartRow,
  price: Price,
): Part {
  const onHand = lots.reduce((sum, lot) => sum + lot.onHand, 0);
  const worth = { onHand, value: BigInt(valueMinor) };
  const average = averageValue(worth);
  const reserved = lots.reduce((sum, lot) => sum + lot.reserved, 0);
  return {
    ...row,
    shim: millimetresOrNull(shimNm),
    shimDiameter: millimetresOrNull(shimDiameterNm),
    onHand,
    reserved,
    available: onHand - reserved,
    price: price(priceMinor),
    core: price(coreMinor),
    value: price(valueMinor),
    average: average === null ? null : price(Number(average)),
    lots: lots.map((lot) => lotOf(lot, worth, price)),
  };
}

/** Parts by number with what there is of each. */
export async function parts(
  sql: Sql,
  query: PartsQuery,
  seesMoney: boolean,
): Promise<{ items: Part[]; next: string | null }> {
  const limit = query.limit ?? PAGE;
  const thickness = query.thickness === undefined ? undefined : parseQuantity(query.thickness, 'mm', 'length');
  const rows = await findParts(sql, {
    search: query.search?.trim() || undefined,
    familyId: query.familyId,
    placeCode: query.placeCode?.trim() || undefined,
    shims: query.shims === undefined ? undefined : query.shims === 'true',
    thicknessNm: thickness?.ok === true ? thickness.value : undefined,
    afterNumber: query.after,
    limit: limit + 1,
  });
  const price = await pricesFor(sql, seesMoney);
  const items = rows.slice(0, limit).map((row) => partOf(row, price));
  return { items, next: rows.length > limit ? (items.at(-1)?.number ?? null) : null };
}

const movementOf = ({ valueChange, ...row }: MovementRow, price: Price): Movement => ({
  ...row,
  value: price(valueChange),
});

/** One part: its lots, who has pieces of it promised, what goes with it, and what moved, newest first. */
export async function partSheet(
  sql: Sql,
  id: string,
  asked: { readonly after?: string | undefined; readonly limit?: number | undefined; readonly seesMoney: boolean },
): Promise<PartSheet> {
  const after = afterCursor(asked.after);
  const limit = asked.limit ?? PAGE;
  const part = found(await findPartById(sql, id), 'such part');
  const [price, holders, companions, rows] = await Promise.all([
    pricesFor(sql, asked.seesMoney),
    findHolders(sql, id),
    findCompanions(sql, id),
    findMovements(sql, { partId: id, after, limit: limit + 1 }),
  ]);
  const last = rows.length > limit ? rows[limit - 1] : undefined;
  return {
    part: partOf(part, price),
    holders,
    companions,
    movements: {
      items: rows.slice(0, limit).map((row) => movementOf(row, price)),
      next: last === undefined ? null : cursorOf(last),
    },
  };
}

export const kits = (sql: Sql, familyId: string | undefined): Promise<Kit[]> => findKits(sql, familyId);

/** The part that is bought in a size class for a place of a family: the newest number; null: none is kept. */
export const partOfSize = (sql: Sql, of: PartOfSize): Promise<PartName | null> => findPartOfSize(sql, of);

/** How many parts of each size class stores could give for a place of a family, none where there is none. */
export async function availableBySize(
  sql: Sql,
  of: { readonly familyId: string; readonly placeCode: string },
): Promise<ReadonlyMap<string, number>> {
  return new Map((await findAvailableBySize(sql, of)).map(({ sizeClass, available }) => [sizeClass, available]));
}
