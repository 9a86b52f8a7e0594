import type { SetLotRule } from '#contracts/demands.ts';
import { type LotRule, meetsRule, oldestFirst, ruleWords, sameRule } from '#domain/stock/lot-rule.ts';
import { sameGrade } from '#domain/stock/lots.ts';
import { nanometres } from '#domain/units/quantity.ts';
import type { Act } from '#platform/act.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { ProblemError } from '#platform/problem.ts';
import { type LineToServe, recordStock } from '../ledger/queries.ts';
import { type OpenLine, openLine, shortAgain } from '../ledger/service.ts';
import { findLinesToAskGrade, findShimsChosen, insertLotRules, isShim, type NewLotRule } from './lot-rule-queries.ts';

/**
 * Puts a rule in force on a line, by hand. What is reserved for it out of lots that do not meet the rule goes back to
 * stock and is short: the next round serves it by the new rule.
 */
export async function setLotRule(
  act: Act,
  asked: SetLotRule & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line, lots, held } = await openLine(act, asked.demandLineId);
  const rule = await ruleAsked(act, line, asked);
  const reason = asked.reason.trim();
  if (sameRule(rule, line.lotRule)) {
    throw new ProblemError('already-done', `${line.name} (${line.number}) is wanted by that rule already.`);
  }
  await insertLotRules(act.sql, [{ lineId: line.id, rule, cause: 'by hand', reason }], act.actor.id);
  const unfit = held.filter(({ lotId }) => lots.some((lot) => lot.id === lotId && !meetsRule(rule, lot)));
  const pieces = unfit.reduce((sum, { quantity }) => sum + quantity, 0);
  if (pieces > 0) await giveBack(act, { line, unfit, reason });
  await act.event('lot-rule.set', {
    engineId: job.engineId,
    jobId: job.id,
    data: { part: line.number, name: line.name, rule: rule.rule, words: ruleWords(rule), reason, givenBack: pieces },
  });
  return { jobId: job.id };
}

async function ruleAsked(act: Act, line: LineToServe, asked: SetLotRule): Promise<LotRule> {
  switch (asked.rule) {
    case 'oldest':
      return oldestFirst;
    case 'grade':
      return { rule: 'grade', grade: asked.grade.trim() };
    case 'exact thickness': {
      if (!(await isShim(act.sql, line.partId))) {
        throw new ProblemError(
          'refused',
          `${line.name} (${line.number}) is no shim: only shims are wanted by thickness.`,
          {
            errors: [{ pointer: '/rule', detail: 'is for shims alone' }],
          },
        );
      }
      const nm = baseOf(asked.thickness, 'length', '/thickness');
      if (nm <= 0) {
        throw new ProblemError('refused', 'The thickness must be a length above zero, such as 2.175 mm.', {
          errors: [{ pointer: '/thickness', detail: 'is not above zero' }],
        });
      }
      return { rule: 'exact thickness', thicknesses: [nanometres(nm)], othersAny: false };
    }
  }
}

/** What lies in lots that the line may not have any more goes back to stock, and is short. */
async function giveBack(
  act: Act,
  of: {
    readonly line: LineToServe;
    readonly unfit: OpenLine['held'];
    readonly reason: string;
  },
): Promise<void> {
  const { line, unfit, reason } = of;
  await recordStock(act.sql, {
    moves: unfit.map(({ lotId, quantity }) => ({
      act: 'release',
      lotId,
      reserved: -quantity,
      demandLineId: line.id,
      jobId: line.jobId,
      reason,
    })),
    holds: unfit.map(({ lotId, quantity }) => ({ demandLineId: line.id, lotId, count: -quantity })),
    standings: [shortAgain(line, unfit)],
    byId: act.actor.id,
  });
}

/**
 * After shims were chosen for valves: the job's lines want the very thicknesses that were chosen. A rule that somebody set
 * by hand since stays, unless the choice itself became another. The caller holds the job and tells of the choice.
 */
export async function ruleByShims(act: Act, jobId: string): Promise<void> {
  const rules = (await findShimsChosen(act.sql, jobId)).flatMap((line): NewLotRule[] => {
    const { lineId, chosen, lastChosen, inForce, words } = line;
    if (chosen.join() === (lastChosen ?? []).join()) return [];
    if (chosen.length > 0) {
      const rule: LotRule = { rule: 'exact thickness', thicknesses: chosen.map(nanometres), othersAny: true };
      return [{ lineId, rule, cause: 'shim choice', reason: words === '' ? 'chosen for a valve' : words }];
    }
    if (!inForce) return [];
    return [
      { lineId, rule: oldestFirst, cause: 'shim choice', reason: 'no shim of it is chosen for a valve any more' },
    ];
  });
  await insertLotRules(act.sql, rules, act.actor.id);
}

/** A grade that is asked for on a line that was just demanded. */
export interface GradeAsked {
  readonly lineId: string;
  readonly grade: string;
  readonly quantity: number;
  readonly words: string;
}

/** Lines that were just demanded in a grade want it; pieces that are open already by another rule are not changed so. */
export async function ruleByGrades(act: Act, asked: readonly GradeAsked[]): Promise<void> {
  if (asked.length === 0) return;
  const lines = await findLinesToAskGrade(
    act.sql,
    asked.map(({ lineId }) => lineId),
  );
  const rules = asked.flatMap(({ lineId, grade, quantity, words }): NewLotRule[] => {
    const line = lines.find(({ id }) => id === lineId);
    if (line?.rule.rule === 'grade' && sameGrade(line.rule.grade, grade)) return [];
    if (line !== undefined && line.open > quantity) {
      const by = ruleWords(line.rule);
      throw new ProblemError(
        'conflict',
        `This job wants ${line.open - quantity} of ${line.name} (${line.number}) ${by === '' ? 'of any grade' : by} already. Change the rule of that line, or take it off first.`,
      );
    }
    return [{ lineId, rule: { rule: 'grade', grade }, cause: 'grade asked', reason: words }];
  });
  await insertLotRules(act.sql, rules, act.actor.id);
}
