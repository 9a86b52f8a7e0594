import { createHash } from 'node:crypto';
import type { HeadShimsAnswer, HeadShimsQuestion } from '#contracts/assembly.ts';
import { rounded, roundedInterval } from '#contracts/figures.ts';
import { type ChoiceInHead, chooseForHeads, type HeadsChoice, type StoredShims } from '#domain/lash/heads.ts';
import { standingIn } from '#domain/lash/interval.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { openJob } from '#features/intake/service.ts';
import { demandPart } from '#features/stores/demands/service.ts';
import { reserveFromLots } from '#features/stores/reservations/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  type Asked,
  candidateOf,
  keepChoice,
  lotOf,
  readAsked,
  sizedValve,
  sourceWords,
  turnOf,
} from './lash-service.ts';
import {
  findJob,
  findLash,
  findShims,
  findShimsAskedFor,
  findValves,
  type LashRow,
  lockShims,
  type ShimLot,
  type ValveRow,
} from './queries.ts';
import { noShimInHeadWords } from './words.ts';

const form = { unit: 'mm', decimals: 3 } as const;
const HEAD = 'head';

type ValveAnswer = HeadShimsAnswer['valves'][number];

interface Subject {
  readonly jobId: string;
  readonly rows: readonly ValveRow[];
  readonly asked: readonly Asked[];
}

/** A head with everything that was weighed for it. */
interface Weighed extends Subject {
  readonly choice: HeadsChoice;
  readonly lots: readonly ShimLot[];
  readonly diameters: readonly number[];
}

const isScrew = ({ row }: Asked): boolean => row.adjuster === 'screw';

function refuseAt(pointer: string, detail: string): never {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
}

/** Reads the valves; a lash that is left out is the one last measured in the job. */
async function readHead(sql: Sql, of: { jobId: string; revisionId: string }, question: HeadShimsQuestion) {
  const rows = await findValves(sql, of.revisionId);
  const measured = await findLash(sql, of.jobId);
  const asked = question.valves.map((given, index): Asked => {
    const at = `/valves/${index}`;
    if (question.valves.findIndex(({ valve }) => valve === given.valve) !== index) {
      refuseAt(`${at}/valve`, `${given.valve} is there twice.`);
    }
    const row = rows.find(({ code }) => code === given.valve);
    if (row !== undefined && row.adjuster !== 'screw' && given.fitted === undefined) {
      refuseAt(`${at}/fitted`, `Measure the shim that is in ${row.name} with a micrometer and key it.`);
    }
    const lash = given.lash ?? lastLash(measured, row, at);
    const { valve, fitted = { value: '0', unit: 'mm' }, fittedUncertainty } = given;
    const uncertainty = fittedUncertainty === undefined ? {} : { fittedUncertainty };
    return readAsked(rows, { valve, lash, fitted, ...uncertainty }, at);
  });
  return { jobId: of.jobId, rows, asked };
}

function lastLash(measured: readonly LashRow[], row: ValveRow | undefined, at: string) {
  const lash = measured.find(({ dimension }) => dimension === row?.dimension);
  if (lash === undefined || row === undefined) {
    refuseAt(`${at}/lash`, `The lash of ${row?.name ?? 'that valve'} was not measured in this job yet.`);
  }
  return roundedInterval(lash.low, lash.high, { unit: 'mm', decimals: 6 });
}

async function weighHead(sql: Sql, subject: Subject): Promise<Weighed> {
  const valves = subject.asked.filter((one) => !isScrew(one)).map(sizedValve);
  const diameters = [...new Set(valves.map(({ shimDiameter }) => shimDiameter))];
  const lots: ShimLot[] = [];
  const stored: StoredShims[] = [];
  for (const diameter of diameters) {
    const there = await findShims(sql, diameter);
    lots.push(...there);
    stored.push(
      ...there.flatMap((lot): readonly StoredShims[] => {
        const { source, ...shims } = candidateOf(lot, diameter);
        if (source.kind === 'bin') return [{ ...shims, source }];
        // What is bought is bought as often as it is wanted.
        return source.kind === 'buy' ? [{ ...shims, source, count: valves.length }] : [];
      }),
    );
  }
  return { ...subject, lots, diameters, choice: chooseForHeads([{ name: HEAD, valves }], stored) };
}

const nameOf = (rows: readonly ValveRow[], valve: string): string =>
  rows.find(({ code }) => code === valve)?.name ?? valve;

function valveAnswer(asked: Asked, weighed: Weighed): ValveAnswer {
  const { row, lash } = asked;
  const shared = {
    name: row.name,
    lash: roundedInterval(lash.low, lash.high, form),
    before: row.low === null || row.high === null ? ('out' as const) : beforeOf(asked, row.low, row.high),
    movesFrom: null,
    alternatives: [],
  };
  const choice = weighed.choice.valves.find(({ valve }) => valve === row.code);
  if (choice === undefined) return { ...turnOf(asked), ...shared };
  const wanted = roundedInterval(choice.wanted.low, choice.wanted.high, form);
  if (!choice.ok) {
    const why = noShimInHeadWords(choice.reason, (valve) => nameOf(weighed.rows, valve));
    return { valve: row.code, wanted, chosen: null, why, turn: null, ...shared };
  }
  return { ...shared, ...chosenAnswer(choice, weighed), valve: row.code, wanted, why: null, turn: null };
}

const beforeOf = ({ lash }: Asked, low: number, high: number) =>
  standingIn(lash, { low: nanometres(low), high: nanometres(high) });

function chosenAnswer(choice: ChoiceInHead & { readonly ok: true }, { lots, rows }: Weighed) {
  const { source, thickness } = choice.chosen;
  const lot = lotOf(lots, source);
  return {
    chosen: {
      thickness: rounded(thickness.value, form),
      from: source.kind,
      words: sourceWords(source, lot, rows),
      partId: lot?.partId ?? null,
      lotId: lot?.lotId ?? null,
      after: roundedInterval(choice.after.low, choice.after.high, form),
      standing: choice.standing,
    },
    movesFrom: source.kind === 'engine' ? source.valve : null,
    alternatives: choice.alternatives.map(({ candidate, standing }) => ({
      thickness: rounded(candidate.thickness.value, form),
      words: sourceWords(candidate.source, lotOf(lots, candidate.source), rows),
      standing: standing === 'out' ? ('possible' as const) : standing,
    })),
  };
}

async function answerOf(sql: Sql, weighed: Weighed): Promise<HeadShimsAnswer> {
  const { asked, rows, choice, jobId, diameters } = weighed;
  const valves = asked.map((one) => valveAnswer(one, weighed));
  const shimmed = choice.valves;
  const count = (of: (one: ChoiceInHead) => boolean) => shimmed.filter(of).length;
  const from = (kind: 'bin' | 'buy') => count((one) => one.ok && one.chosen.source.kind === kind);
  const askedFor = await findShimsAskedFor(sql, { jobId, diameters });
  return {
    guaranteed: count((one) => one.ok && one.standing === 'guaranteed'),
    possible: count((one) => one.ok && one.standing === 'possible'),
    out: count((one) => !one.ok),
    bought: from('buy'),
    fromBins: from('bin'),
    valves,
    comeOut: choice.comeOut.map(({ valve }) => nameOf(rows, valve)),
    askedFor: askedFor.map(({ number, count: pieces }) => `${pieces} × ${number}`),
    seen: seenOf(valves),
  };
}

/** The same for two proposals exactly when they put the same shims into the same valves for the same lash. */
function seenOf(valves: readonly ValveAnswer[]): string {
  const facts = valves.map(({ valve, lash, wanted, movesFrom, chosen }) => [
    valve,
    lash,
    wanted,
    movesFrom,
    chosen && [chosen.from, chosen.thickness, chosen.partId, chosen.lotId],
  ]);
  return createHash('sha256').update(JSON.stringify(facts)).digest('base64url');
}

/** The shims for a whole head (and the turns of its screws), without keeping anything. */
export async function proposeHeadShims(sql: Sql, jobId: string, question: HeadShimsQuestion) {
  const job = found(await findJob(sql, jobId), 'such job');
  return answerOf(sql, await weighHead(sql, await readHead(sql, job, question)));
}

/**
 * Chooses the shims of a head, keeps every choice, asks stores for what comes from there, reserves it out of the chosen
 * lots, and marks what has to be bought as short: all of it or nothing.
 */
export async function takeHeadShims(act: Act, jobId: string, question: HeadShimsQuestion): Promise<HeadShimsAnswer> {
  const job = await openJob(act, jobId);
  const subject = await readHead(act.sql, { jobId, revisionId: job.revisionId }, question);
  const diameters = subject.asked.flatMap(({ row }) => (row.shimDiameter === null ? [] : [row.shimDiameter]));
  await lockShims(act.sql, diameters);
  const weighed = await weighHead(act.sql, subject);
  const answer = await answerOf(act.sql, weighed);
  refuseToTake(answer, question);
  const from = [];
  for (const asked of subject.asked) {
    const choice = weighed.choice.valves.find(({ valve }) => valve === asked.row.code);
    if (choice?.ok !== true) continue;
    const lot = lotOf(weighed.lots, choice.chosen.source);
    await keepChoice(act, { jobId, asked, choice, lot, words: sourceWords(choice.chosen.source, lot, weighed.rows) });
    if (lot === undefined) continue;
    const words = `shim for ${asked.row.name}`;
    const line = await demandPart(act, { jobId, partId: lot.partId, quantity: 1, words });
    from.push({ ...line, lotId: lot.lotId, count: 1 });
  }
  if (from.length > 0) await reserveFromLots(act, { jobId, from });
  await act.event('shims.chosen', {
    engineId: job.engineId,
    jobId,
    data: {
      shims: answer.valves.flatMap(({ name, chosen }) =>
        chosen === null ? [] : [{ valve: name, thickness: chosen.thickness, from: chosen.words, after: chosen.after }],
      ),
    },
  });
  return answer;
}

function refuseToTake(answer: HeadShimsAnswer, question: HeadShimsQuestion): void {
  if (answer.askedFor.length > 0) {
    throw new ProblemError(
      'conflict',
      `Shims are asked for already and not handed out: ${answer.askedFor.join(', ')}. Cancel them at the stores first, or fit them and measure again.`,
    );
  }
  if (question.seen !== undefined && question.seen !== answer.seen) {
    throw new ProblemError('conflict', 'The bins or the lash have changed since. Look at the new proposal first.');
  }
  if (answer.valves.every(({ chosen }) => chosen === null)) {
    throw new ProblemError('refused', 'There is no shim to take for any of these valves.');
  }
}
