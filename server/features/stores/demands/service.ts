import type { AddDemands, CancelDemand, DemandLine, JobDemands } from '#contracts/demands.ts';
import { stillAsked } from '#domain/stock/demand.ts';
import { lineState } from '#domain/stock/line-state.ts';
import { sameGrade } from '#domain/stock/lots.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findJobOfLine, lockLinesOfJob, lockLotsOfJob } from '../ledger/queries.ts';
import { type Outlook, outlookOf } from '../promising/service.ts';
import { callOff, piecesOf, stillWanted } from './calling-off.ts';
import { companionsGone } from './companions-gone.ts';
import { type GradeAsked, ruleByGrades, ruleByShims } from './lot-rule-service.ts';
import { lotRuleWire } from './lot-rule-wire.ts';
import {
  type DemandRow,
  findDemandLines,
  findKitForJob,
  findPartsToDemand,
  insertWishes,
  jobExists,
  type PartToDemand,
  type Wish,
} from './queries.ts';
import { trimReasons } from './reason-queries.ts';

export { ruleByShims } from './lot-rule-service.ts';
export { callOffDecidedAnew, callOffDischarged } from './reasons-gone.ts';
export { callOffForValves, type WishForValves, wishesForValves } from './valve-wishes.ts';

/** What a job demands, line by line, with the state of each. */
export async function demandsOfJob(sql: Sql, jobId: string): Promise<JobDemands> {
  if (!(await jobExists(sql, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  return { lines: [...(await demandsOfJobs(sql, [jobId]))] };
}

/**
 * The demand lines of several jobs at once, those of one job together. Where the outlook of them all is known already it is
 * given; else that of those that are short is worked out.
 */
export async function demandsOfJobs(
  sql: Sql,
  jobIds: readonly string[],
  known?: Outlook,
): Promise<readonly DemandLine[]> {
  const rows = await findDemandLines(sql, jobIds);
  const shortJobs = new Set(rows.filter(stillAsked).map(({ jobId }) => jobId));
  const outlook = known ?? (shortJobs.size === 0 ? undefined : await outlookOf(sql, [...shortJobs]));
  return rows.map(({ askedWhole: _, ...row }) => {
    const day = outlook?.byLine.get(row.id);
    return {
      ...row,
      lotRule: row.lotRule === null ? null : lotRuleWire(row.lotRule),
      state: stateOf(row, shortJobs),
      expectedOn: day?.on ?? null,
      expectedFrom: [...(day?.from ?? [])],
    };
  });
}

const stateOf = (row: Omit<DemandRow, 'askedWhole'>, shortJobs: ReadonlySet<string>) =>
  lineState(row, {
    jobIsShort: shortJobs.has(row.jobId),
    heldForYes: row.held.length > 0 && row.held.every(({ expiresAt }) => expiresAt !== null),
  });

/** Adds a kit's parts, or single ones, to what a job wants; parts that belong with them come along. */
export async function addDemands(act: Act, asked: { readonly jobId: string; readonly what: AddDemands }) {
  const job = await openJob(act, asked.jobId);
  const wishes = 'kitId' in asked.what ? await kitWishes(act, job.id, asked.what.kitId) : linesWished(asked.what.lines);
  const parts = await findPartsToDemand(act.sql, [...new Set(wishes.map(({ partId }) => partId))]);
  refuseUnfit(parts, wishes);
  const all = withCompanions(wishes, parts);
  const lines = await insertWishes(act.sql, { jobId: job.id, wishes: all, byId: act.actor.id });
  await ruleByGrades(act, 'kitId' in asked.what ? [] : gradesAsked(asked.what.lines, lines));
  await ruleByShims(act, job.id);
  await act.event('parts.demanded', {
    engineId: job.engineId,
    jobId: job.id,
    data: { lines: all.map(({ partId, quantity, words }) => ({ partId, quantity, words })) },
  });
  return demandsOfJob(act.sql, job.id);
}

/**
 * Adds one part, and what belongs with it, to what a job wants: for dispositions and one-time-use rules. The caller holds
 * the job (openJob) and tells of it in its own event.
 * @returns the demand line
 */
export async function demandPart(
  act: Act,
  asked: {
    readonly jobId: string;
    readonly partId: string;
    readonly quantity: number;
    readonly obligationId?: string;
    readonly valve?: string;
    readonly words: string;
  },
): Promise<{ readonly demandLineId: string }> {
  const { jobId, ...wish } = asked;
  const parts = await findPartsToDemand(act.sql, [wish.partId]);
  refuseUnfit(parts, [wish]);
  const lines = await insertWishes(act.sql, { jobId, wishes: withCompanions([wish], parts), byId: act.actor.id });
  return { demandLineId: found(lines.find(({ partId }) => partId === wish.partId)?.id, 'such demand line') };
}

/** The grades that are asked for, on the lines that were demanded; a part has one line, and so one grade. */
function gradesAsked(
  asked: Extract<AddDemands, { lines: unknown }>['lines'],
  lines: readonly { readonly id: string; readonly partId: string }[],
): readonly GradeAsked[] {
  const byPart = new Map<string, GradeAsked>();
  asked.forEach(({ partId, quantity, words, ...of }, at) => {
    const before = byPart.get(partId);
    const grade = of.grade?.trim() ?? before?.grade;
    const lineId = lines.find((line) => line.partId === partId)?.id;
    if (grade === undefined || lineId === undefined) return;
    if (before !== undefined && !sameGrade(before.grade, grade)) {
      throw new ProblemError('refused', 'A job wants one part in one grade. Ask for one of them.', {
        errors: [{ pointer: `/lines/${at}/grade`, detail: `is ${grade}, and ${before.grade} above` }],
      });
    }
    byPart.set(partId, { lineId, grade, quantity: quantity + (before?.quantity ?? 0), words: words.trim() });
  });
  return [...byPart.values()];
}

async function kitWishes(act: Act, jobId: string, kitId: string): Promise<readonly Wish[]> {
  const kit = found(await findKitForJob(act.sql, kitId, jobId), 'such kit');
  if (!kit.fits) {
    throw new ProblemError('refused', `${kit.name} is a kit for the ${kit.family}; this engine is of another family.`);
  }
  if (kit.lines.length === 0) throw new ProblemError('refused', `${kit.name} has no parts in it yet.`);
  return kit.lines.map(({ partId, quantity }) => ({ partId, quantity, words: kit.name, kitId }));
}

const linesWished = (lines: readonly { partId: string; quantity: number; words: string }[]): readonly Wish[] =>
  lines.map(({ partId, quantity, words }) => ({ partId, quantity, words: words.trim() }));

function refuseUnfit(parts: readonly PartToDemand[], wishes: readonly Wish[]): void {
  wishes.forEach(({ partId }, index) => {
    const part = parts.find(({ id }) => id === partId);
    const errors = (detail: string) => ({ errors: [{ pointer: `/lines/${index}/partId`, detail }] });
    if (part === undefined) throw new ProblemError('not-found', `There is no part ${partId}.`, errors('is not known'));
    if (!part.retired) return;
    const instead = part.successor === null ? '' : ` Ask for ${part.successor} instead.`;
    throw new ProblemError(
      'refused',
      `${part.name} (${part.number}) is not stocked any more.${instead}`,
      errors('is retired'),
    );
  });
}

/** Companions join, as far as the same asking doesn't bring them itself (a kit with its own circlips). */
function withCompanions(wishes: readonly Wish[], parts: readonly PartToDemand[]): readonly Wish[] {
  const spare = new Map<string, number>();
  for (const { partId, quantity } of wishes) spare.set(partId, (spare.get(partId) ?? 0) + quantity);
  const joined: Wish[] = [...wishes];
  for (const wish of wishes) {
    const parent = parts.find(({ id }) => id === wish.partId);
    for (const companion of parent?.companions ?? []) {
      const needed = wish.quantity * companion.quantity;
      const brought = Math.min(needed, spare.get(companion.partId) ?? 0);
      spare.set(companion.partId, (spare.get(companion.partId) ?? 0) - brought);
      if (needed === brought) continue;
      joined.push({
        partId: companion.partId,
        quantity: needed - brought,
        words: `goes with ${parent?.name ?? ''}`,
        kitId: wish.kitId,
        obligationId: wish.obligationId,
        parentPartId: wish.partId,
      });
    }
  }
  return joined;
}

/**
 * Calls off all that a job still wants, as it leaves: what was reserved goes back to stock, for others. Tells how many
 * pieces; the event is the caller's, who holds the engine and the job.
 */
export async function callOffRest(act: Act, { jobId, reason }: { jobId: string; reason: string }): Promise<number> {
  const lots = await lockLotsOfJob(act.sql, jobId);
  const lines = await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  const cuts = lines.map((line) => ({ line, quantity: stillWanted(line) }));
  return piecesOf(await callOff(act, { jobId, lots, cuts, reason }));
}

/**
 * Takes pieces off what a job wants, and with them what goes with them and was not handed out; what was reserved of them
 * goes back to stock.
 */
export async function cancelDemand(
  act: Act,
  asked: CancelDemand & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const job = await openJob(act, found(await findJobOfLine(act.sql, asked.demandLineId), 'such demand line'));
  const lots = await lockLotsOfJob(act.sql, job.id);
  const lines = await lockLinesOfJob(act.sql, { jobId: job.id, lineIds: undefined });
  const line = found(
    lines.find(({ id }) => id === asked.demandLineId),
    'such demand line',
  );
  const there = stillWanted(line);
  const quantity = asked.quantity ?? there;
  if (there === 0 || quantity > there) {
    throw new ProblemError(
      'conflict',
      `Of ${line.name} (${line.number}) ${there} can be cancelled; ${line.issued} are issued. What is issued is returned instead.`,
      { there, issued: line.issued },
    );
  }
  const words = asked.words.trim();
  const companions = await companionsGone(act, { jobId: job.id, lines, line, quantity });
  const [, ...calledOff] = await callOff(act, {
    jobId: job.id,
    lots,
    cuts: [{ line, quantity }, ...companions],
    reason: words,
  });
  await trimReasons(act.sql, [line.id]);
  await act.event('demand.cancelled', {
    engineId: job.engineId,
    jobId: job.id,
    data: { part: line.number, name: line.name, quantity, words, ...(calledOff.length === 0 ? {} : { calledOff }) },
  });
  return { jobId: job.id };
}
