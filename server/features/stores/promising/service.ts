import type { PartPromise, PartsReady, PromiseQuery } from '#contracts/promising.ts';
import { kitReady, type LineReady, readyDays } from '#domain/stock/completion.ts';
import type { Coming } from '#domain/stock/cover.ts';
import { availableToPromise, daysLater, firstDayFor, promisableOn } from '#domain/stock/promise.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { jobExists } from '../demands/queries.ts';
import { findComingOf } from '../desks/queries.ts';
import { findLeadDays, findOpenWishes, findPartsWanted, findStock, findToday, type OpenWish } from './queries.ts';

/** What can be promised of a part for a day, and day by day over all that comes and is wanted. */
export async function partPromise(sql: Sql, partId: string, asked: PromiseQuery): Promise<PartPromise> {
  const [stock] = await findStock(sql, [partId]);
  const { part, onHand, reserved, usedFree } = found(stock, 'such part');
  const [today, coming, wishes, leads] = await Promise.all([
    findToday(sql),
    findComingOf(sql, [partId]),
    findOpenWishes(sql, [partId]),
    findLeadDays(sql, [partId]),
  ]);
  const dated = coming.flatMap(({ promisedOn, open }) =>
    promisedOn === null || promisedOn < today ? [] : [{ on: promisedOn, quantity: open }],
  );
  const free = onHand - reserved - usedFree;
  const days = availableToPromise({
    today,
    free,
    coming: dated,
    wanted: wishes.map(({ promisedOn, short, notAsked }) => ({ on: promisedOn ?? today, quantity: short + notAsked })),
  });
  const on = asked.on === undefined || asked.on < today ? today : asked.on;
  const quantity = asked.quantity ?? 1;
  const leadDays = leads.get(partId) ?? null;
  return {
    part,
    today,
    onHand,
    reserved,
    free,
    usedFree,
    asked: {
      on,
      quantity,
      promisable: promisableOn(days, on),
      firstOn: firstDayFor(days, quantity),
      ifOrderedOn: leadDays === null ? null : daysLater(today, leadDays),
    },
    days: [...days],
    undated: sumOf(coming.map(({ open }) => open)) - sumOf(dated.map((line) => line.quantity)),
    leadDays,
    wishes: wishes.map(({ id, job, short, notAsked, promisedOn }) => ({
      demandLineId: id,
      job,
      short,
      notAsked,
      promisedOn,
    })),
  };
}

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);

type Ready = LineReady & Omit<OpenWish, 'short' | 'notAsked'> & { readonly missing: number; readonly asked: boolean };

/** What was asked for is served first, in the turn of its job's promise; after it comes what nobody asked for yet. */
const inTurn = (wishes: readonly OpenWish[]) =>
  [
    ...wishes.map(({ short, notAsked: _, ...wish }) => ({ ...wish, missing: short, asked: true })),
    ...wishes.map(({ short: _, notAsked, ...wish }) => ({ ...wish, missing: notAsked, asked: false })),
  ].filter(({ missing }) => missing > 0);

/** When what these jobs still want can be here, each line in its turn among all open jobs. */
async function linesReady(sql: Sql, jobIds: readonly string[]): Promise<{ today: string; lines: readonly Ready[] }> {
  const partIds = await findPartsWanted(sql, jobIds);
  const [today, stock, coming, wishes, leads] = await Promise.all([
    findToday(sql),
    findStock(sql, partIds),
    findComingOf(sql, partIds),
    findOpenWishes(sql, partIds),
    findLeadDays(sql, partIds),
  ]);
  const lines = stock.flatMap(({ partId, onHand, reserved, usedFree }) => {
    const own: readonly Coming[] = coming.filter((line) => line.partId === partId);
    const wanted = inTurn(wishes.filter((wish) => wish.partId === partId));
    const lacks = wanted.map(({ id, jobId, missing }) => ({ id, jobId, short: missing }));
    const facts = { today, free: onHand - reserved - usedFree, coming: own, leadDays: leads.get(partId) ?? null };
    return readyDays(lacks, facts).flatMap((ready, at) => {
      const wish = wanted[at];
      return wish === undefined ? [] : [{ ...wish, ...ready }];
    });
  });
  return { today, lines };
}

/** When the parts of each of these jobs can all be here; jobs that want nothing more are left out. */
export async function readyOfJobs(
  sql: Sql,
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, ReturnType<typeof kitReady>>> {
  const { today, lines } = await linesReady(sql, jobIds);
  return new Map(
    jobIds.flatMap((jobId) => {
      const own = lines.filter((line) => line.jobId === jobId);
      return own.length === 0 ? [] : [[jobId, kitReady(today, own)] as const];
    }),
  );
}

/** When all that a job wants from stores can be here, and which lines hold it back. */
export async function partsReady(sql: Sql, jobId: string): Promise<PartsReady> {
  if (!(await jobExists(sql, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  const { today, lines } = await linesReady(sql, [jobId]);
  const own = lines.filter((line) => line.jobId === jobId);
  const stock = await findStock(
    sql,
    own.map(({ partId }) => partId),
  );
  const partOf = new Map(stock.map(({ partId, part }) => [partId, part]));
  return {
    ...kitReady(today, own),
    lines: own
      .toSorted((a, b) => (b.on ?? '9999').localeCompare(a.on ?? '9999'))
      .map(({ id, partId, missing, asked, on, basis }) => ({
        demandLineId: id,
        part: found(partOf.get(partId), 'such part'),
        missing,
        asked,
        on,
        basis,
      })),
  };
}

export interface ShortageDays {
  readonly today: string;
  /** By line: the day on which it can have what it is short of, in its turn, of what is on order; null: nothing tells. */
  readonly byLine: ReadonlyMap<string, string | null>;
}

export async function shortageDays(sql: Sql, jobIds: readonly string[]): Promise<ShortageDays> {
  const { today, lines } = await linesReady(sql, jobIds);
  return {
    today,
    byLine: new Map(
      lines.filter(({ asked }) => asked).map(({ id, on, basis }) => [id, basis === 'if ordered' ? null : on]),
    ),
  };
}
