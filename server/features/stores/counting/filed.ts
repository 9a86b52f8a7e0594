import type { FileTaken } from '#contracts/stores-files.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { blindFileOf, readCountFile } from './count-file.ts';
import { insertEntry } from './queries.ts';
import { findLines, findSheet } from './reading-queries.ts';
import { sheetToCount } from './service.ts';

/** What is to be counted of a sheet as a file, blind; with what was keyed for the one who counts it. */
export async function sheetFile(sql: Sql, id: string, readerId: string): Promise<string> {
  const sheet = found(await findSheet(sql, id), 'such count sheet');
  const counts = sheet.round.handedInAt === null && sheet.round.counter.id === readerId;
  return blindFileOf(await findLines(sql, id), counts);
}

/**
 * Keys what a file says was counted: all of it, or none. It is compared with the books of the moment it comes in, so that
 * nothing may move in those bins between the counting and the file; the event tells how many lines, never what.
 */
export async function keyCountFile(
  act: Act,
  of: { readonly sheetId: string; readonly text: string },
): Promise<FileTaken> {
  const sheet = await sheetToCount(act, of.sheetId, 'to key');
  const rows = readCountFile(of.text, await findLines(act.sql, sheet.id));
  const news = rows.filter(({ line, counted }) => line.keyed !== counted);
  // Lots are locked in the order of their lines, as whoever else keys this sheet would.
  for (const { line, counted } of news.toSorted((a, b) => a.line.id.localeCompare(b.line.id))) {
    await insertEntry(act.sql, {
      line: { id: line.id, lotId: line.lotId },
      round: sheet.round,
      counted,
      byId: act.actor.id,
      at: act.happenedAt ?? null,
    });
  }
  await act.event('count.keyed-by-file', { data: { sheet: sheet.number, lines: news.length } });
  const added = news.filter(({ line }) => line.keyed === null).length;
  return { rows: rows.length, added, changed: news.length - added, unchanged: rows.length - news.length };
}
