import type { ShimAnswer, ShimQuestion } from '#contracts/assembly.ts';
import { rounded, roundedInterval } from '#contracts/figures.ts';
import { chooseShim, type ShimCandidate, type ShimChoice, type ShimSource } from '#domain/lash/choose-shim.ts';
import type { SizedValve } from '#domain/lash/heads.ts';
import type { LengthInterval } from '#domain/lash/interval.ts';
import { screwTurn } from '#domain/lash/screw.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { openJob } from '#features/intake/service.ts';
import {
  callOffForValves,
  demandPart,
  ruleByShims,
  type WishForValves,
  wishesForValves,
} from '#features/stores/demands/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findJob, findShims, findValves, insertChoice, lockShims, type ShimLot, type ValveRow } from './queries.ts';
import { noShimWords } from './words.ts';

/** What a micrometer leaves open about a shim, k = 2, when nobody says better (common practice, no source). */
const USUAL_UNCERTAINTY = nanometres(4_000);
/** A new shim is its printed size to within this (common practice, no source). */
const NEW_SHIM_UNCERTAINTY = nanometres(5_000);
const form = { unit: 'mm', decimals: 3 } as const;

/** What is open about a shim that nobody said more of: measured by micrometer, or new and of its printed size. */
export const usualUncertainty = (measured: boolean) => (measured ? USUAL_UNCERTAINTY : NEW_SHIM_UNCERTAINTY);

/** A valve of the sheet, the lash felt at it, and the shim in it as measured (nm). */
export interface Asked {
  readonly row: ValveRow;
  readonly lash: LengthInterval;
  readonly fitted: number;
  readonly uncertainty: number;
}

/** The valve of the sheet that is named at `at` in the body. */
export function valveNamed(valves: readonly ValveRow[], named: string, at: string): ValveRow {
  const row = valves.find(({ code }) => code === named);
  if (row !== undefined) return row;
  const known = valves.map(({ code }) => code).join(', ');
  throw new ProblemError('not-found', `This engine has no valve ${named}. It has ${known}.`, {
    errors: [{ pointer: `${at}/valve`, detail: 'is not on the sheet' }],
  });
}

/** Reads one valve's question; `at` is the pointer to it in the body. */
export function readAsked(valves: readonly ValveRow[], question: ShimQuestion, at = ''): Asked {
  const row = valveNamed(valves, question.valve, at);
  const { low, high, unit } = question.lash;
  const from = baseOf({ value: low, unit }, 'length', `${at}/lash/low`);
  const to = high === null ? null : baseOf({ value: high, unit }, 'length', `${at}/lash/high`);
  if (from < 0 || (to !== null && to <= from)) {
    const detail = 'The blade that does not go in must be thicker than the one that does.';
    throw new ProblemError('refused', detail, { errors: [{ pointer: `${at}/lash/high`, detail }] });
  }
  return {
    row,
    lash: { low: from, high: to },
    fitted: baseOf(question.fitted, 'length', `${at}/fitted`),
    uncertainty:
      question.fittedUncertainty === undefined
        ? USUAL_UNCERTAINTY
        : baseOf(question.fittedUncertainty, 'length', `${at}/fittedUncertainty`),
  };
}

export const candidateOf = (lot: ShimLot, diameter: number): ShimCandidate => ({
  source:
    lot.lotId === null
      ? { kind: 'buy', partId: lot.partId }
      : { kind: 'bin', lotId: lot.lotId, receivedAt: lot.receivedAt },
  thickness: { value: nanometres(lot.thickness), uncertainty: usualUncertainty(lot.measured) },
  shimDiameter: nanometres(diameter),
  count: lot.available,
});

interface Weighed {
  readonly asked: Asked;
  readonly choice: ShimChoice;
  readonly lot: ShimLot | undefined;
  readonly wishes: readonly WishForValves[];
}

/** The valve with the sheet's range and sizes; refused when the sheet gives none. */
export function sizedValve({ row, ...measured }: Asked): SizedValve {
  const { low, high, shimDiameter, shimLow, shimHigh } = row;
  if (low === null || high === null || shimDiameter === null || shimLow === null || shimHigh === null) {
    throw new ProblemError('refused', `The spec sheet gives no lash range or no shims for ${row.name}.`);
  }
  const fitted = { value: nanometres(measured.fitted), uncertainty: nanometres(measured.uncertainty) };
  return {
    code: row.code,
    fitted: { measured: fitted, printed: null },
    lash: measured.lash,
    wanted: nanometres(row.wanted),
    range: { low: nanometres(low), high: nanometres(high) },
    shimDiameter: nanometres(shimDiameter),
    makersSizes: { low: nanometres(shimLow), high: nanometres(shimHigh) },
  };
}

/** The lot or part that a shim comes out of. */
export const lotOf = (lots: readonly ShimLot[], source: ShimSource | undefined): ShimLot | undefined =>
  lots.find(
    (each) =>
      (source?.kind === 'bin' && each.lotId === source.lotId) ||
      (source?.kind === 'buy' && each.lotId === null && each.partId === source.partId),
  );

/** Weighs for one valve, as if what was asked for it before were back in the bins. */
async function weigh(sql: Sql, jobId: string, asked: Asked): Promise<Weighed> {
  const valve = sizedValve(asked);
  const { shimDiameter } = valve;
  const wishes = await wishesForValves(sql, [{ jobId, valves: [valve.code] }]);
  const lots = await findShims(
    sql,
    shimDiameter,
    wishes.flatMap(({ shares }) => shares),
  );
  const stays: ShimCandidate = {
    source: { kind: 'stays' },
    thickness: valve.fitted.measured,
    shimDiameter,
    count: 1,
  };
  const candidates = [stays, ...lots.map((lot) => candidateOf(lot, shimDiameter))];
  const choice = chooseShim(valve, candidates, valve.makersSizes);
  return { asked, choice, wishes, lot: lotOf(lots, choice.ok ? choice.chosen.source : undefined) };
}

/** Where a shim comes from, in words; valves by their names. */
export function sourceWords(source: ShimSource, lot: ShimLot | undefined, valves: readonly ValveRow[]): string {
  switch (source.kind) {
    case 'stays':
      return 'the shim in it stays';
    case 'engine':
      return `from ${valves.find(({ code }) => code === source.valve)?.name ?? source.valve}`;
    case 'bin':
      return `${lot?.number ?? ''} from bin ${lot?.bin ?? ''} (${lot?.available ?? 0} there)`;
    case 'buy':
      return `${lot?.number ?? ''}, to be bought`;
  }
}

const wordsOf = ({ choice, lot }: Weighed): string => (choice.ok ? sourceWords(choice.chosen.source, lot, []) : '');

function answerOf(weighed: Weighed): ShimAnswer {
  const { asked, choice, lot } = weighed;
  const wanted = roundedInterval(choice.wanted.low, choice.wanted.high, form);
  if (!choice.ok) return { valve: asked.row.code, wanted, chosen: null, why: noShimWords(choice.reason), turn: null };
  return {
    valve: asked.row.code,
    wanted,
    chosen: {
      thickness: rounded(choice.chosen.thickness.value, { unit: 'mm', decimals: 3 }),
      from: choice.chosen.source.kind,
      words: wordsOf(weighed),
      partId: lot?.partId ?? null,
      lotId: lot?.lotId ?? null,
      after: roundedInterval(choice.after.low, choice.after.high, form),
      standing: choice.standing,
    },
    why: null,
    turn: null,
  };
}

/** The turn of a screw. */
export function turnOf({ row, lash }: Asked): ShimAnswer {
  const outcome = screwTurn({ lash, wanted: nanometres(row.wanted), pitch: nanometres(row.screwPitch ?? 0) });
  const wanted = { low: formatQuantity(row.wanted, 'mm', 3), high: formatQuantity(row.wanted, 'mm', 3), unit: 'mm' };
  if (!outcome.ok) {
    const why =
      outcome.reason.kind === 'pitch-not-positive'
        ? 'The spec sheet gives no thread pitch for this adjuster.'
        : 'Even the thickest blade went in: measure again with thicker ones.';
    return { valve: row.code, wanted, chosen: null, why, turn: null };
  }
  const turn = (value: number) => rounded(value, { unit: 'deg', decimals: 0 });
  const { least, middle, most } = outcome.turn;
  return {
    valve: row.code,
    wanted,
    chosen: null,
    why: null,
    turn: { least: turn(least), middle: turn(middle), most: turn(most) },
  };
}

/** The shim for one valve (or the turn of its screw), without keeping anything. */
export async function proposeShim(sql: Sql, jobId: string, question: ShimQuestion): Promise<ShimAnswer> {
  const job = found(await findJob(sql, jobId), 'such job');
  const asked = readAsked(await findValves(sql, job.revisionId), question);
  return asked.row.adjuster === 'screw' ? turnOf(asked) : answerOf(await weigh(sql, jobId, asked));
}

/** Keeps the shim that was chosen for a valve, with what it was chosen by. */
export async function keepChoice(
  act: Act,
  of: {
    readonly jobId: string;
    readonly asked: Asked;
    readonly choice: ShimChoice & { readonly ok: true };
    readonly lot: ShimLot | undefined;
    readonly words: string;
  },
): Promise<void> {
  const { jobId, asked, choice, lot, words } = of;
  if (asked.lash.high === null || choice.after.high === null) {
    throw new Error(`${asked.row.code} has no upper end to its lash and a shim all the same`);
  }
  await insertChoice(act.sql, {
    jobId,
    valve: asked.row.code,
    lashLow: asked.lash.low,
    lashHigh: asked.lash.high,
    fitted: asked.fitted,
    wantedLow: choice.wanted.low,
    wantedHigh: choice.wanted.high ?? choice.wanted.low,
    chosen: choice.chosen.thickness.value,
    thenLow: choice.after.low,
    thenHigh: choice.after.high,
    lotId: lot?.lotId ?? null,
    words,
    guaranteed: choice.standing === 'guaranteed',
    byId: act.actor.id,
  });
}

/** Chooses the shim for one valve, keeps the choice, and asks stores for it when it comes from there. */
export async function takeShim(act: Act, jobId: string, question: ShimQuestion): Promise<ShimAnswer> {
  const job = await openJob(act, jobId);
  const asked = readAsked(await findValves(act.sql, job.revisionId), question);
  if (asked.row.adjuster === 'screw') {
    throw new ProblemError(
      'refused',
      `${asked.row.name} has a screw: turn it, then measure the lash again. There is no shim to choose.`,
    );
  }
  if (asked.row.shimDiameter !== null) await lockShims(act.sql, [asked.row.shimDiameter]);
  const weighed = await weigh(act.sql, jobId, asked);
  const { choice, lot, wishes } = weighed;
  if (!choice.ok || choice.after.high === null || asked.lash.high === null) {
    throw new ProblemError(
      'refused',
      choice.ok ? 'Even the thickest blade went in: measure again with thicker ones.' : noShimWords(choice.reason),
    );
  }
  await callOffForValves(act, wishes);
  await keepChoice(act, { jobId, asked, choice, lot, words: wordsOf(weighed) });
  if (lot !== undefined) {
    const { code, name } = asked.row;
    await demandPart(act, { jobId, partId: lot.partId, quantity: 1, valve: code, words: `shim for ${name}` });
  }
  await ruleByShims(act, jobId);
  const answer = answerOf(weighed);
  await act.event('shim.chosen', {
    engineId: job.engineId,
    jobId,
    data: {
      valve: asked.row.name,
      thickness: answer.chosen?.thickness,
      from: answer.chosen?.words,
      after: answer.chosen?.after,
    },
  });
  return answer;
}
