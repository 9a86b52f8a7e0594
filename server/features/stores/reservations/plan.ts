import type { Reserved } from '#contracts/demands.ts';
import { type KitLine, type KitPlan, type NamedShortage, type PlannedReservation, planKit } from '#domain/stock/kit.ts';
import { ruleWords, wishesUnder } from '#domain/stock/lot-rule.ts';
import { availableIn, type Lot } from '#domain/stock/lots.ts';
import { ProblemError } from '#platform/problem.ts';
import type { LineToServe, Standing } from '../ledger/queries.ts';
import { moveOnLine, partOf } from '../ledger/service.ts';

/** Pieces of a line to be asked for: not asked yet, or short so far. */
export const openCount = ({ notAsked, short }: Standing): number => notAsked + short;

/** What a line still asks for of these lots, by its rule. */
function wishesOf(line: LineToServe, lots: readonly Lot[]): readonly KitLine[] {
  const { id, partId, servedBy } = line;
  return wishesUnder(line.lotRule, {
    open: openCount(line),
    got: line.gotNm,
    there: (nm) => lots.some((lot) => lot.thickness === nm && servedBy.includes(lot.partId) && availableIn(lot) > 0),
  }).map((wish) => ({ id, partId, servedBy, ...wish }));
}

/** What to reserve for these lines, and what is short, one shortage a line. */
export function planFor(lines: readonly LineToServe[], lots: readonly Lot[], allOrNothing: boolean): KitPlan {
  const plan = planKit(
    lines.flatMap((line) => wishesOf(line, lots)),
    lots,
    allOrNothing ? 'whole' : 'partial',
  );
  const shortages = new Map<string, NamedShortage>();
  for (const line of lines) {
    const own = plan.shortages.filter(({ lineId }) => lineId === line.id);
    const missing = own.reduce((sum, shortage) => sum + shortage.missing, 0);
    const wanted = openCount(line);
    if (missing > 0)
      shortages.set(line.id, { lineId: line.id, partId: line.partId, wanted, available: wanted - missing, missing });
  }
  return { reservations: together(plan.reservations), shortages: [...shortages.values()] };
}

/** Several wishes of one line may be served from one lot: that is one reservation. */
function together(reservations: readonly PlannedReservation[]): readonly PlannedReservation[] {
  const byLineAndLot = new Map<string, PlannedReservation>();
  for (const reservation of reservations) {
    const key = `${reservation.lineId} ${reservation.lotId}`;
    const count = (byLineAndLot.get(key)?.count ?? 0) + reservation.count;
    byLineAndLot.set(key, { ...reservation, count });
  }
  return [...byLineAndLot.values()];
}

/** How it was asked: as a whole or piece by piece, and until when the asking stands (undefined: until it is served). */
export interface Asking {
  readonly allOrNothing: boolean;
  readonly expiresAt?: string | undefined;
}

export function standingAfter(line: LineToServe, plan: KitPlan, asking: Asking): Standing {
  const got = plan.reservations.reduce((sum, { lineId, count }) => sum + (lineId === line.id ? count : 0), 0);
  const short = plan.shortages.find(({ lineId }) => lineId === line.id)?.missing ?? 0;
  return {
    id: line.id,
    reserved: line.reserved + got,
    short,
    issued: line.issued,
    cancelled: line.cancelled,
    notAsked: openCount(line) - got - short,
    asking:
      plan.shortages.length === 0
        ? { whole: false, until: null }
        : { whole: asking.allOrNothing, until: asking.expiresAt ?? null },
  };
}

/** Pieces come to what is short first, then to what nobody asked for yet. */
export function taken(line: LineToServe, count: number): Standing {
  if (openCount(line) < count) {
    throw new ProblemError(
      'conflict',
      `That job still wants ${openCount(line)} of ${line.name} (${line.number}), not ${count}.`,
      { wanted: openCount(line), asked: count },
    );
  }
  const short = Math.min(line.short, count);
  const rest = count - short;
  const served = short === 0 ? line : { ...line, ...moveOnLine(line, 'short', { to: 'reserved', count: short }) };
  return rest === 0 ? served : moveOnLine(served, 'notAsked', { to: 'reserved', count: rest });
}

const shortText = ({ missing, part, rule }: Reserved['shortages'][number]): string =>
  `${missing} × ${part.name} (${part.number})${rule === '' ? '' : ` ${rule}`}`;

export function replyOf(plan: KitPlan, lines: readonly LineToServe[]): Reserved {
  const byId = new Map(lines.map((line) => [line.id, partOf(line)]));
  const part = (lineId: string) => byId.get(lineId) ?? { id: lineId, number: '', name: '' };
  const rules = new Map(lines.map(({ id, lotRule }) => [id, ruleWords(lotRule)]));
  const shortages = plan.shortages.map(({ lineId, wanted, available, missing }) => ({
    demandLineId: lineId,
    part: part(lineId),
    wanted,
    available,
    missing,
    rule: rules.get(lineId) ?? '',
  }));
  const reserved = plan.reservations.map(({ lineId, lotId, count }) => ({
    demandLineId: lineId,
    part: part(lineId),
    lotId,
    quantity: count,
  }));
  const missing = shortages.map(shortText).join(', ');
  const pieces = reserved.reduce((sum, { quantity }) => sum + quantity, 0);
  return {
    complete: shortages.length === 0,
    reserved,
    shortages,
    words:
      shortages.length === 0
        ? `Reserved: ${pieces}. Nothing is short.`
        : `${pieces === 0 ? 'Nothing was reserved' : `Reserved: ${pieces}`}. Short: ${missing}.`,
  };
}
