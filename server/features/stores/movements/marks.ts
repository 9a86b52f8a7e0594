import type { CorrectLotMarks, StockMoved } from '#contracts/stock.ts';
import type { Quantity } from '#contracts/wire.ts';
import { type LotRule, meetsRule, oldestFirst } from '#domain/stock/lot-rule.ts';
import type { Act } from '#platform/act.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockLines } from '../ledger/queries.ts';
import { lockLotsAndHolders, numbersOf, takeBackOf, tellThoseWhoLost } from './correction.ts';
import { findPromisesOfLot, insertMarkCorrection, type LotToMove } from './queries.ts';

/**
 * Puts right what a lot bears: its grade, and of shims its measured thickness. Whom it was promised to by a rule that it
 * meets no longer is short of it, by name, and is served anew.
 */
export async function correctMarks(act: Act, asked: CorrectLotMarks & { readonly lotId: string }): Promise<StockMoved> {
  const lot = found((await lockLotsAndHolders(act, [asked.lotId]))[0], 'such lot');
  const grade = asked.grade === undefined ? lot.grade : asked.grade.trim();
  const shimNm = asked.thickness === undefined ? lot.shimNm : thicknessAsked(lot, asked.thickness);
  const reason = asked.reason.trim();
  if (grade === lot.grade && shimNm === lot.shimNm) {
    throw new ProblemError('already-done', 'The lot bears just that already: nothing was changed.');
  }
  const given = await promisesLost(act, lot, {
    thickness: shimNm ?? lot.nominalNm,
    grade: grade === '' ? lot.partGrade : grade,
  });
  const shortages = await takeBackOf(act, lot, { given, reason });
  await insertMarkCorrection(act.sql, { lot, shimNm, grade, reason, byId: act.actor.id });
  await tellThoseWhoLost(act, shortages, reason);
  await act.event('lot.marked', {
    data: {
      part: lot.number,
      name: lot.name,
      bin: lot.bin,
      was: { grade: lot.grade, shimNm: lot.shimNm },
      grade,
      shimNm,
      reason,
      short: shortages.map(({ job, missing }) => ({ job: job.number, jobId: job.id, missing })),
    },
  });
  const lost = given.reduce((sum, { count }) => sum + count, 0);
  const after = numbersOf({ onHand: lot.onHand, reserved: lot.reserved - lost });
  return { lotId: lot.id, ...after, toLotId: null, shortages, carried: [] };
}

/** Nanometres; null: nobody measured them, they are of their nominal thickness. */
function thicknessAsked(lot: LotToMove, asked: Quantity | null): number | null {
  if (asked === null) return null;
  if (lot.nominalNm === null) {
    throw new ProblemError('refused', 'Only a lot of shims has a thickness. Leave it out.', {
      errors: [{ pointer: '/thickness', detail: 'is for shims alone' }],
    });
  }
  const nm = baseOf(asked, 'length', '/thickness');
  if (nm > 0) return nm;
  throw new ProblemError('refused', 'The thickness must be a length above zero, such as 2.175 mm.', {
    errors: [{ pointer: '/thickness', detail: 'is not above zero' }],
  });
}

interface Marks {
  readonly thickness: number | null;
  readonly grade: string;
}

/** The rule wants just what the lot bears: of several thicknesses one, not any beside them. */
const isWantedBy = (rule: LotRule, marks: Marks): boolean =>
  rule.rule === 'exact thickness' ? rule.thicknesses.some((nm) => nm === marks.thickness) : meetsRule(rule, marks);

/** Promises out of a locked lot whose rule it meets as it was marked, and no longer. */
async function promisesLost(act: Act, lot: LotToMove, after: Marks) {
  const promises = await findPromisesOfLot(act.sql, lot.id);
  const lines = await lockLines(
    act.sql,
    promises.map(({ demandLineId }) => demandLineId),
  );
  const before = { thickness: lot.shimNm ?? lot.nominalNm, grade: lot.grade === '' ? lot.partGrade : lot.grade };
  return promises.filter(({ demandLineId }) => {
    const rule = lines.find(({ id }) => id === demandLineId)?.lotRule ?? oldestFirst;
    return isWantedBy(rule, before) && !isWantedBy(rule, after);
  });
}
