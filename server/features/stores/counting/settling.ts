import type { DecideCount } from '#contracts/counts.ts';
import type { StockMoved, TakenBack } from '#contracts/stock.ts';
import { judgeCount, lineStanding } from '#domain/stock/counting.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { changeLot, lockLotsAndHolders } from '../movements/correction.ts';
import { insertLot, type LotToMove } from '../movements/queries.ts';
import { insertCommit, type SheetHead } from './queries.ts';
import { classOfParts, toleranceOf } from './schedule.ts';
import { sheetOf, sheetToCount } from './service.ts';
import {
  type CountedNow,
  endSettledBins,
  findCounted,
  findValueOfLastAdjustment,
  insertAgain,
  insertSettlement,
  joinFoundToLots,
  setLotOfLine,
} from './settling-queries.ts';

/** Why the ledger was put right by a count within tolerance. */
const countedReason = 'counted';

export interface HandedInCounts {
  readonly right: number;
  readonly adjusted: number;
  readonly again: number;
  readonly toDecide: number;
  readonly shortages: readonly TakenBack[];
}

interface Counted extends CountedNow {
  readonly counted: number;
  readonly books: number;
}

const isToCount = (line: CountedNow): boolean => {
  const standing = lineStanding(line);
  return standing === 'to count' || standing === 'to count again';
};

/**
 * A round is over: what is right or within tolerance is settled at once, the rest is counted again or, after a recount,
 * waits for somebody's decision. Engines, lots and lines are locked before anything is compared.
 */
export async function handIn(act: Act, sheetId: string, round: number): Promise<HandedInCounts> {
  const sheet = await sheetToCount(act, sheetId, 'to end');
  if (sheet.round !== round) {
    throw new ProblemError('already-done', `Round ${round} was handed in; this is round ${sheet.round}.`, {
      errors: [{ pointer: '/round', detail: `is not ${sheet.round}` }],
    });
  }
  await joinFoundToLots(act.sql, sheetId);
  const before = (await findCounted(act.sql, { sheetId, round })).filter(isToCount);
  refuseUncounted(before, sheet);
  const lots = await lockLotsAndHolders(act, lotIdsOf(before));
  const lines = (await findCounted(act.sql, { sheetId, round })).filter(isToCount).filter(wasCounted);
  await insertCommit(act.sql, sheetId, round);
  const done = await settleRound(act, { lines, lots, round });
  await endSettledBins(act.sql, sheetId);
  const { shortages: _, ...counts } = done;
  await act.event('count.handed-in', {
    data: { sheet: sheet.number, round, bins: [...new Set(lines.map(({ bin }) => bin))], ...counts },
  });
  return done;
}

const lotIdsOf = (lines: readonly CountedNow[]): readonly string[] =>
  lines.flatMap(({ lotId }) => (lotId === null ? [] : [lotId]));

const wasCounted = (line: CountedNow): line is Counted => line.counted !== null && line.books !== null;

function refuseUncounted(lines: readonly CountedNow[], sheet: SheetHead): void {
  const missing = lines.filter((line) => !wasCounted(line));
  const [first] = missing;
  if (first === undefined) return;
  const more = missing.length === 1 ? 'One line is' : `${missing.length} lines are`;
  throw new ProblemError(
    'refused',
    `${more} not counted yet on sheet ${sheet.number}, first ${first.name} in bin ${first.bin}. Key 0 where nothing lies.`,
    {
      errors: missing
        .slice(0, 50)
        .map(({ id, bin, name }) => ({ pointer: `/lines/${id}`, detail: `${name} in bin ${bin} is not counted` })),
    },
  );
}

interface Round {
  readonly lines: readonly Counted[];
  readonly lots: readonly LotToMove[];
  readonly round: number;
}

async function settleRound(act: Act, { lines, lots, round }: Round): Promise<HandedInCounts> {
  const classes = await classOfParts(
    act.sql,
    lines.map(({ partId }) => partId),
  );
  const tolerance = await toleranceOf(act.sql);
  const tally = { right: 0, adjusted: 0, again: 0, toDecide: 0 };
  const shortages: TakenBack[] = [];
  for (const line of lines) {
    const verdict = judgeCount({ ...line, round }, tolerance(classes(line.partId)));
    if (verdict === 'count again') tally.again += 1;
    else if (verdict === 'decide') tally.toDecide += 1;
    else {
      const lot = lots.find(({ id }) => id === line.lotId);
      shortages.push(...(await settle(act, { line, lot, round, how: verdict, reason: countedReason })));
      if (verdict === 'right') tally.right += 1;
      else tally.adjusted += 1;
    }
  }
  return { ...tally, shortages };
}

interface Settling {
  readonly line: Counted;
  readonly lot: LotToMove | undefined;
  readonly round: number;
  readonly how: 'right' | 'within tolerance' | 'decided';
  readonly reason: string;
}

/** Puts the ledger right by the difference that was counted, whatever moved since, and takes down that it was settled. */
async function settle(act: Act, { line, lot, round, how, reason }: Settling): Promise<readonly TakenBack[]> {
  const difference = line.counted - line.books;
  const moved = difference === 0 ? undefined : await adjust(act, { line, lot, difference, reason });
  await insertSettlement(act.sql, {
    lineId: line.id,
    round,
    how,
    difference,
    valueMinor: moved === undefined ? 0 : await findValueOfLastAdjustment(act.sql, moved.lotId),
    reason,
    byId: act.actor.id,
  });
  return moved?.shortages ?? [];
}

async function adjust(
  act: Act,
  of: { line: Counted; lot: LotToMove | undefined; difference: number; reason: string },
): Promise<StockMoved> {
  const { line, difference, reason } = of;
  const lot = of.lot ?? (await lotForFound(act, line));
  if (lot.onHand + difference < 0) {
    throw new ProblemError(
      'conflict',
      `Since ${line.name} was counted in bin ${line.bin}, so many pieces went out that the difference no longer fits. Count it again.`,
    );
  }
  return changeLot(act, lot, { act: 'adjust', change: difference, reason });
}

async function lotForFound(act: Act, line: Counted): Promise<LotToMove> {
  const { partId, binId, code, serial } = line;
  const lotId = await insertLot(act.sql, { partId, binId, code, shimNm: null, serial });
  await setLotOfLine(act.sql, line.id, lotId);
  const [lot] = await lockLotsAndHolders(act, [lotId]);
  if (lot === undefined) throw new Error('a lot that was put in is not there');
  return lot;
}

/** After a recount somebody with the right takes the last count for true, with a reason, or wants another. */
export async function decideCount(
  act: Act,
  asked: DecideCount & { readonly sheetId: string },
): Promise<{ readonly shortages: readonly TakenBack[] }> {
  const sheet = await sheetOf(act, asked.sheetId, 'to end');
  const reason = asked.reason.trim();
  const line = await lineToDecide(act, { sheet, lineId: asked.lineId });
  const round = line.lastRound ?? 0;
  const told = { sheet: sheet.number, bin: line.bin, name: line.name, reason };
  if (asked.decision === 'count again') {
    await insertAgain(act.sql, { lineId: line.id, round, reason, byId: act.actor.id });
    await act.event('count.again', { data: told });
    return { shortages: [] };
  }
  const [lot] = await lockLotsAndHolders(act, lotIdsOf([line]));
  const shortages = await settle(act, { line, lot, round, how: 'decided', reason });
  await endSettledBins(act.sql, sheet.id);
  await act.event('count.decided', { data: { ...told, difference: line.counted - line.books } });
  return { shortages };
}

async function lineToDecide(act: Act, { sheet, lineId }: { sheet: SheetHead; lineId: string }): Promise<Counted> {
  const pointer = '/lineId';
  const lines = await findCounted(act.sql, { sheetId: sheet.id, round: sheet.round, lineId });
  const now = lines[0];
  if (now === undefined) {
    throw new ProblemError('not-found', `Sheet ${sheet.number} has no such line.`, {
      errors: [{ pointer, detail: 'is not a line of this sheet' }],
    });
  }
  const standing = lineStanding(now);
  if (standing !== 'to decide') {
    throw new ProblemError(
      standing === 'settled' ? 'already-done' : 'conflict',
      standing === 'settled'
        ? `${now.name} in bin ${now.bin} is settled.`
        : `${now.name} in bin ${now.bin} is to be counted again before anything is decided.`,
      { errors: [{ pointer, detail: `is ${standing}` }] },
    );
  }
  const [line] = await findCounted(act.sql, { sheetId: sheet.id, round: now.lastRound ?? 0, lineId });
  if (line === undefined || !wasCounted(line)) throw new Error('a line to decide was never counted');
  return line;
}
