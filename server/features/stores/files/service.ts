import type { FileTaken } from '#contracts/stores-files.ts';
import type { Act, Actor } from '#platform/act.ts';
import type { Sql, SqlPool } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findFamilyCodes, findPartsByNumber } from '../books/queries.ts';
import { moneyDigits, takeParts } from '../books/service.ts';
import { countSchedule } from '../counting/schedule.ts';
import { findPicks } from '../desks/queries.ts';
import { shortLines } from '../desks/service.ts';
import { findPart, findVendor } from '../receiving/queries.ts';
import { keepDate } from '../supply/dating.ts';
import { lockPurchaseLines } from '../supply/queries.ts';
import { buyingProposals } from '../supply/to-buy.ts';
import { binsFileOf, readBinsFile } from './bins-file.ts';
import { readDaysFile, refuseUnsaidRows } from './days-file.ts';
import { expectedFileOf, scheduleFileOf, toBuyFileOf, vendorsFileOf, walkFileOf } from './desk-files.ts';
import { findLinesToCome, readExpected, readVendors } from './desk-queries.ts';
import { kitsFileOf, partsInKitsFile, readKitsFile } from './kits-file.ts';
import { coresFileOf, movementsFileOf, wantedFileOf } from './ledger-files.ts';
import { readCores, readMovements, readWanted } from './ledger-queries.ts';
import { readAllBins, readAllKits, readAllOrdered, readAllPrices, readVendorPrices } from './queries.ts';
import { lockVendors, replaceKits, upsertBins, upsertVendors } from './taking-queries.ts';
import { tried } from './trying.ts';
import { readVendorsFile } from './vendors-file.ts';

import { ordersFileOf, priceListOf, pricesFileOf, shortFileOf } from './written-files.ts';

/** Puts up and changes bins as a file says: all of it, or none. */
async function takeBins({ sql }: Act, text: string): Promise<FileTaken> {
  const bins = readBinsFile(text);
  return { rows: bins.length, ...(await upsertBins(sql, bins)) };
}

/** Makes and changes kits as a file says: all of it, or none. */
async function takeKits({ sql }: Act, text: string): Promise<FileTaken> {
  const families = new Map((await findFamilyCodes(sql)).map(({ id, code }) => [code.toLowerCase(), id]));
  const known = await findPartsByNumber(sql, partsInKitsFile(text));
  const parts = new Map(known.map((part) => [part.number.toLowerCase(), part]));
  const rows = readKitsFile(text, { families, parts });
  return { rows: rows.length, ...(await replaceKits(sql, rows)) };
}

async function takePartsFile(act: Act, text: string): Promise<FileTaken> {
  const { added, changed, unchanged } = await takeParts(act, text);
  return { rows: added + changed + unchanged, added, changed, unchanged };
}

/** Tells the days on which purchase lines come, as a file says, each as if told alone: all of them, or none. */
async function takeDays(act: Act, text: string): Promise<FileTaken> {
  const rows = readDaysFile(text, await findLinesToCome(act.sql));
  const ids = rows.map(({ lineId }) => lineId);
  const lines = new Map((await lockPurchaseLines(act.sql, ids)).map((line) => [line.id, line]));
  const told = rows.flatMap((row) => {
    const line = lines.get(row.lineId);
    return line === undefined || line.promisedOn === row.promisedOn ? [] : [{ ...row, line, was: line.promisedOn }];
  });
  refuseUnsaidRows(told);
  for (const { line, promisedOn, said } of told) await keepDate(act, line, { promisedOn, words: said });
  return { rows: rows.length, added: 0, changed: told.length, unchanged: rows.length - told.length };
}

/** Adds and changes vendors as a file says: all of it, or none. */
async function takeVendors({ sql }: Act, text: string): Promise<FileTaken> {
  const vendors = readVendorsFile(text, await lockVendors(sql));
  return { rows: vendors.length, ...(await upsertVendors(sql, vendors)) };
}

const taking = {
  bins: takeBins,
  kits: takeKits,
  parts: takePartsFile,
  days: takeDays,
  vendors: takeVendors,
} as const;
type Taken = keyof typeof taking;

/** What a file would bring; nothing is kept. */
export const checkFile = (
  db: SqlPool,
  actor: Actor,
  of: { readonly what: Taken; readonly text: string },
): Promise<FileTaken> => tried(db, actor, (act) => taking[of.what](act, of.text));

export async function takeFile(act: Act, what: Exclude<Taken, 'parts'>, text: string): Promise<FileTaken> {
  const taken = await taking[what](act, text);
  await act.event(`${what}.imported`, { data: { ...taken } });
  return taken;
}

type File_ = AsyncGenerator<string> | string;

/** Files of all there is, by name; each is read as it is sent. */
export const writtenFiles = {
  bins: async (sql: Sql): Promise<File_> => binsFileOf(readAllBins(sql)),
  kits: async (sql: Sql): Promise<File_> => kitsFileOf(readAllKits(sql)),
  prices: async (sql: Sql): Promise<File_> => pricesFileOf(readAllPrices(sql), await moneyDigits(sql)),
  orders: async (sql: Sql): Promise<File_> => ordersFileOf(readAllOrdered(sql), await moneyDigits(sql)),
  movements: async (sql: Sql): Promise<File_> => movementsFileOf(readMovements(sql), await moneyDigits(sql)),
  cores: async (sql: Sql): Promise<File_> => coresFileOf(readCores(sql), await moneyDigits(sql)),
  wanted: async (sql: Sql): Promise<File_> => wantedFileOf(readWanted(sql)),
  walk: async (sql: Sql): Promise<File_> => walkFileOf(await findPicks(sql, undefined)),
  expected: async (sql: Sql): Promise<File_> => expectedFileOf(readExpected(sql)),
  'to-buy': async (sql: Sql): Promise<File_> =>
    toBuyFileOf(await buyingProposals(sql, { seesMoney: false, mostLow: null })),
  vendors: async (sql: Sql): Promise<File_> => vendorsFileOf(readVendors(sql)),
  schedule: async (sql: Sql): Promise<File_> => scheduleFileOf((await countSchedule(sql, false, null)).bins),
  short: async (sql: Sql): Promise<File_> => shortFileOf((await shortLines(sql)).items),
} as const;

/** All that ever moved of one part, as a file. */
export async function partLife(sql: Sql, partId: string): Promise<AsyncGenerator<string>> {
  const part = found(await findPart(sql, partId), 'such part');
  return movementsFileOf(readMovements(sql, part.id), await moneyDigits(sql));
}

/** What one vendor asks, as a price list. */
export async function vendorPriceList(sql: Sql, vendorId: string): Promise<AsyncGenerator<string>> {
  const vendor = found(await findVendor(sql, vendorId), 'such vendor');
  return priceListOf(readVendorPrices(sql, vendor.id), await moneyDigits(sql));
}
