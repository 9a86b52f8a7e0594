import type { AddBin, BinKept, ChangeBin, OpeningKept, PartsKept } from '#contracts/stock-books.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { insertAlternatives } from '../instead/queries.ts';
import { findCurrency } from '../ledger/queries.ts';
import { numbersInPartsFile, type PartsRead, partsFileOf, readPartsFile } from './parts-file.ts';
import {
  findBinsByCode,
  findFamilyCodes,
  findFastenerSets,
  findPartsByNumber,
  insertBin,
  insertOpening,
  lockPartsByNumber,
  type OpeningLot,
  readAllParts,
  readAllStock,
  updateBin,
  upsertParts,
} from './queries.ts';
import { namesInStockFile, readStockFile, stockFileOf } from './stock-file.ts';
import { type AlternativesRow, alternativesToWrite, othersNamed, readTies } from './ties-file.ts';
import {
  findAlternativesOf,
  findCompanionNumbers,
  findSuccessors,
  writeCompanionRows,
  writeSuccessors,
} from './ties-queries.ts';

/** How many decimals the shop's money has (ISO 4217, as the runtime knows it). */
export async function moneyDigits(sql: Sql): Promise<number> {
  const currency = await findCurrency(sql);
  return new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
}

/** Takes a file of parts: new ones are added, known ones changed; all of the file or none. */
export async function takeParts(act: Act, text: string): Promise<PartsKept> {
  const families = new Map((await findFamilyCodes(act.sql)).map(({ id, code }) => [code.toLowerCase(), id]));
  const fastenerSets = new Map(
    (await findFastenerSets(act.sql)).map(({ familyId, codes }) => [familyId, new Set(codes)]),
  );
  const before = await findPartsByNumber(act.sql, numbersInPartsFile(text));
  const { parts, ties } = readPartsFile(text, {
    families,
    fastenerSets,
    parts: new Map(before.map((part) => [part.number.toLowerCase(), part])),
    digits: await moneyDigits(act.sql),
  });
  const known = await knownTies(act.sql, { parts, ties });
  const { successors, alternatives, companions } = readTies(ties, known);
  const { added, changed } = await upsertParts(act.sql, parts);
  const replaced = await writeSuccessors(act.sql, successors);
  const told = await writeAlternatives(act, alternatives);
  const going = await writeCompanionRows(act.sql, companions);
  const isNew = new Set(added);
  const differ = new Set([...changed, ...replaced, ...told, ...going].filter((number) => !isNew.has(number)));
  return { added: added.length, changed: differ.size, unchanged: parts.length - added.length - differ.size };
}

export async function importParts(act: Act, text: string): Promise<PartsKept> {
  const kept = await takeParts(act, text);
  await act.event('parts.imported', { data: { ...kept } });
  return kept;
}

/** What the shop knows of the parts that a file ties together. */
async function knownTies(sql: Sql, { parts, ties }: PartsRead) {
  const found = await findPartsByNumber(sql, othersNamed(ties));
  const numbers = new Set([...found, ...parts].map(({ number }) => number.toLowerCase()));
  return { numbers, successors: await findSuccessors(sql), companions: await findCompanionNumbers(sql) };
}

/** Writes which alternatives parts have now, and tells the numbers of those that had others. */
async function writeAlternatives(act: Act, rows: readonly AlternativesRow[]): Promise<readonly string[]> {
  if (rows.length === 0) return [];
  const numbers = rows.flatMap(({ number, others }) => [number, ...others.map((other) => other.number)]);
  const parts = await findPartsByNumber(act.sql, [...new Set(numbers)]);
  const ids = new Map(parts.map(({ id, number }) => [number.toLowerCase(), id]));
  const now = await findAlternativesOf(act.sql, [...ids.values()]);
  const news = alternativesToWrite(rows, { ids, now });
  await insertAlternatives(act.sql, news, act.actor.id);
  const changed = new Set(news.map(({ partId }) => partId));
  return parts.filter(({ id }) => changed.has(id)).map(({ number }) => number);
}

/** Reads an opening balance against what is known; refuses it with every row and column that is wrong. */
async function readOpening(sql: Sql, text: string): Promise<readonly OpeningLot[]> {
  const names = namesInStockFile(text);
  const parts = await findPartsByNumber(sql, names.parts);
  const bins = await findBinsByCode(sql, names.bins);
  return readStockFile(text, {
    parts: new Map(parts.map((part) => [part.number.toLowerCase(), part])),
    bins: new Map(bins.map((bin) => [bin.code.toLowerCase(), bin])),
    digits: await moneyDigits(sql),
  });
}

const openingOf = (lots: readonly OpeningLot[]): OpeningKept => ({
  lots: lots.length,
  parts: new Set(lots.map(({ partId }) => partId)).size,
  pieces: lots.reduce((sum, { quantity }) => sum + quantity, 0),
});

/** What an opening balance would bring in; nothing is kept. */
export const checkOpening = async (sql: Sql, text: string): Promise<OpeningKept> =>
  openingOf(await readOpening(sql, text));

/** Opens the books of parts that have never moved: each row becomes a lot, received as an opening balance. */
export async function importOpening(act: Act, text: string): Promise<OpeningKept> {
  await lockPartsByNumber(act.sql, namesInStockFile(text).parts);
  const lots = await readOpening(act.sql, text);
  await insertOpening(act.sql, lots, act.actor.id);
  const kept = openingOf(lots);
  await act.event('stock.opened', { data: { ...kept } });
  return kept;
}

export const partsFile = async (sql: Sql): Promise<AsyncGenerator<string>> =>
  partsFileOf(readAllParts(sql), await moneyDigits(sql));

export const stockFile = async (sql: Sql): Promise<AsyncGenerator<string>> =>
  stockFileOf(readAllStock(sql), await moneyDigits(sql));

export async function addBin(act: Act, asked: AddBin): Promise<BinKept> {
  const code = asked.code.trim();
  await refuseTaken(act, code);
  const bin = found(await insertBin(act.sql, { code, walkOrder: asked.walkOrder }), 'such bin');
  await act.event('bin.added', { data: { bin: bin.code } });
  return bin;
}

async function refuseTaken(act: Act, code: string, byId?: string): Promise<void> {
  if (!(await findBinsByCode(act.sql, [code])).some(({ id }) => id !== byId)) return;
  throw new ProblemError('conflict', `There is a bin ${code} already.`, {
    errors: [{ pointer: '/code', detail: 'is taken' }],
  });
}

export async function changeBin(act: Act, asked: ChangeBin & { readonly id: string }): Promise<BinKept> {
  const { id, walkOrder, closed } = asked;
  const code = asked.code?.trim();
  if (code !== undefined) await refuseTaken(act, code, id);
  const bin = found(await updateBin(act.sql, { id, code, walkOrder, closed }), 'such bin');
  await act.event('bin.changed', { data: { bin: bin.code, closed: bin.closed } });
  return bin;
}
