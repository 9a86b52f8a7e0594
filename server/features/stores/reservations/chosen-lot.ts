import type { ReserveOfLot } from '#contracts/demands.ts';
import { roomUnder, ruleWords } from '#domain/stock/lot-rule.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findHeldUntil } from '../holds/queries.ts';
import { findCondition, insertAlternativeTaken } from '../instead/queries.ts';
import { type LineToServe, recordStock } from '../ledger/queries.ts';
import { openLine } from '../ledger/service.ts';
import { openCount, taken } from './plan.ts';
import { type ChosenLot, insertAgainstRule, lockChosenLot } from './queries.ts';

/** Reserves pieces out of the very lot that somebody chose, for a line that wants them. */
export async function reserveOfLot(
  act: Act,
  asked: ReserveOfLot & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line } = await openLine(act, asked.demandLineId, asked.lotId);
  const lot = found(await lockChosenLot(act.sql, asked.lotId), 'such lot');
  const reason = asked.reason?.trim() ?? '';
  const condition = await conditionOf(act, { line, lot, reason });
  const against = ruleBroken({ line, lot, reason, quantity: asked.quantity });
  const there = lot.onHand - lot.reserved;
  if (asked.quantity > there) {
    throw new ProblemError('stock-short', `Of that lot ${there} can be reserved, not ${asked.quantity}.`, {
      there,
      asked: asked.quantity,
    });
  }
  const standing = taken(line, asked.quantity);
  const { quantity, demandLineId, lotId } = asked;
  if (condition !== null)
    await insertAlternativeTaken(act.sql, { demandLineId, lotId, quantity, condition, reason, byId: act.actor.id });
  if (against !== null) await insertAgainstRule(act.sql, { demandLineId, lotId, quantity, reason, byId: act.actor.id });
  await recordStock(act.sql, {
    moves: [
      {
        lotId: lot.id,
        act: 'reserve',
        reserved: quantity,
        demandLineId: line.id,
        jobId: job.id,
        reason: reason === '' && lot.used ? lot.condition : reason,
      },
    ],
    holds: [{ demandLineId: line.id, lotId: lot.id, count: quantity }],
    standings: [standing],
    byId: act.actor.id,
    usualUntil: await findHeldUntil(act.sql, job.id),
  });
  await act.event('part.chosen', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      part: line.number,
      name: line.name,
      quantity,
      used: lot.used,
      condition: lot.condition,
      lot: lot.code,
      ...(lot.partId === line.partId ? {} : { instead: `${lot.name} (${lot.number})` }),
      ...(condition === null ? {} : { onCondition: condition }),
      ...(against === null ? {} : { againstRule: against }),
      ...(reason === '' ? {} : { reason }),
    },
  });
  return { jobId: job.id };
}

/** The rule of the line that the chosen lot does not meet, in words; null: it meets it. Refused without a reason. */
function ruleBroken(of: {
  readonly line: LineToServe;
  readonly lot: ChosenLot;
  readonly reason: string;
  readonly quantity: number;
}): string | null {
  const { line, lot } = of;
  const rule = line.lotRule;
  if (rule.rule === 'oldest' || of.quantity <= roomUnder(rule, { open: openCount(line), got: line.gotNm, lot }))
    return null;
  const words = ruleWords(rule);
  if (of.reason !== '') return words;
  throw new ProblemError(
    'refused',
    `${line.name} (${line.number}) is wanted ${words}, and that lot is not. Say in reason why it is taken all the same.`,
    { errors: [{ pointer: '/reason', detail: 'a lot that does not meet the rule is taken with a reason' }] },
  );
}

/**
 * On which condition an alternative lies in the chosen lot; null: it is the wanted part, or what serves in its place.
 * What was never named as one is refused, and so is one that nobody says why it is taken.
 */
async function conditionOf(
  act: Act,
  of: { readonly line: LineToServe; readonly lot: ChosenLot; readonly reason: string },
): Promise<string | null> {
  const { line, lot } = of;
  if (line.servedBy.includes(lot.partId)) return null;
  const condition = await findCondition(act.sql, { partId: line.partId, otherId: lot.partId });
  if (condition === undefined) {
    const barred = lot.partId === line.partId;
    throw new ProblemError(
      'refused',
      barred
        ? `${line.name} (${line.number}) was replaced, and only the new part is fitted: choose a lot of that.`
        : `What lies in that lot is another part than ${line.name} (${line.number}), and no alternative to it.`,
      {
        errors: [
          { pointer: '/lotId', detail: barred ? 'is a lot that is not fitted any more' : 'is a lot of another part' },
        ],
      },
    );
  }
  if (of.reason === '') {
    throw new ProblemError(
      'refused',
      `${lot.name} (${lot.number}) is an alternative to ${line.number} (${condition}). Say in reason why it is taken.`,
      { errors: [{ pointer: '/reason', detail: 'an alternative is taken with a reason' }] },
    );
  }
  return condition;
}
