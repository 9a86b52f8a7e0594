import type { CustodyPage, CustodyPeriod } from '#contracts/custody.ts';
import type {
  BenchTimes,
  PeriodInShop,
  Periods,
  PeriodsQuery,
  WhoHeld,
  WhoHeldQuery,
} from '#contracts/custody-past.ts';
import { benchTimes } from '#domain/custody/bench-times.ts';
import { afterCursor, cursorOf } from '#platform/cursor.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findChangesAround,
  findEnginePeriods,
  findHeldAt,
  findNow,
  findOfferSpans,
  findPeriods,
  findPeriodsWithin,
  type PeriodRow,
} from './past-queries.ts';

const AT_ONCE = 1000;
const MINUTE = 60_000_000;

const periodOf = (row: PeriodRow): CustodyPeriod => ({
  id: row.id,
  subject: { kind: row.subjectKind, id: row.subjectId, name: row.subjectName },
  holder: { kind: row.holderKind, id: row.holderId, name: row.holderName },
  place: row.placeId === null ? null : { id: row.placeId, name: row.placeName ?? '' },
  from: row.from,
  until: row.until,
  reason: row.reason,
  movedBy: { id: row.movedById, name: row.movedByName },
  handoverId: row.handoverId,
});

/** Who held an engine and its trays, latest first; with `at`, only who held them then. */
export async function listCustody(
  sql: Sql,
  of: { engineId: string; at: string | undefined; after: string | undefined; limit: number | undefined },
): Promise<CustodyPage> {
  const limit = of.limit ?? 100;
  const rows = await findPeriods(sql, {
    engineId: of.engineId,
    at: of.at,
    after: afterCursor(of.after),
    limit: limit + 1,
  });
  const items = rows.slice(0, limit).map(periodOf);
  const last = items.at(-1);
  return { items, next: rows.length > limit && last !== undefined ? cursorOf({ at: last.from, id: last.id }) : null };
}

const inShop = (row: PeriodRow): PeriodInShop => ({
  ...periodOf(row),
  engine: { id: row.engineId, serial: row.serial, family: row.family },
  job: row.jobId === null || row.number === null ? null : { id: row.jobId, number: row.number },
});

/** Who held what at a moment, over the whole shop or of one engine, tray, person or bay; and the changes around it. */
export async function whoHeld(sql: Sql, query: WhoHeldQuery): Promise<WhoHeld> {
  const at = query.at ?? (await findNow(sql));
  const rows = await findHeldAt(sql, { ...query, at, limit: AT_ONCE + 1 });
  const { before, after } = await findChangesAround(sql, { ...query, at });
  return { at, items: rows.slice(0, AT_ONCE).map(inShop), more: rows.length > AT_ONCE, before, after };
}

/** Holders over a span of time, subject by subject. */
export async function periodsWithin(sql: Sql, query: PeriodsQuery): Promise<Periods> {
  const until = query.until ?? (await findNow(sql));
  if (Date.parse(query.from) >= Date.parse(until)) {
    throw new ProblemError('refused', 'The span ends before it begins. Say an earlier "from" or a later "until".');
  }
  const rows = await findPeriodsWithin(sql, { ...query, until, limit: AT_ONCE + 1 });
  return { from: query.from, until, items: rows.slice(0, AT_ONCE).map(inShop), more: rows.length > AT_ONCE };
}

/** Time on each bench, waiting between benches and outside, of one visit. */
export async function benchTimesOf(sql: Sql, jobId: string): Promise<BenchTimes> {
  const rows = await findEnginePeriods(sql, jobId);
  found(rows[0], 'such job');
  const now = Date.parse(await findNow(sql)) * 1000;
  const times = benchTimes(rows, { offers: await findOfferSpans(sql, jobId), now });
  const minutes = (microseconds: number): number => Math.floor(microseconds / MINUTE);
  return {
    stays: times.stays.map(({ first, last, worked, waited }) => ({
      kind: first.holderKind === 'vendor' || first.holderKind === 'owner' ? first.holderKind : 'bay',
      place: { id: first.placeId, name: first.place },
      from: first.fromAt,
      until: last.untilAt,
      workedMinutes: minutes(worked),
      waitedMinutes: minutes(waited),
    })),
    workedMinutes: minutes(times.worked),
    waitedMinutes: minutes(times.waited),
    outsideMinutes: minutes(times.outside),
    offeredMinutes: minutes(times.offered),
  };
}
