import type {
  HeadShimsAnswer,
  HeadShimsQuestion,
  HeadsShimsAnswer,
  HeadsShimsQuestion,
} from '#contracts/head-shims.ts';
import { chooseForHeads, type StoredShims } from '#domain/lash/heads.ts';
import { openJob } from '#features/intake/service.ts';
import { callOffForValves, demandPart, ruleByShims, wishesForValves } from '#features/stores/demands/service.ts';
import { reserveFromLots } from '#features/stores/reservations/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { answerOf, choiceFor, type Weighed } from './head-shims-answer.ts';
import { readHead, refuseAt, type Subject } from './head-shims-reading.ts';
import { type Asked, candidateOf, keepChoice, lotOf, sizedValve, sourceWords } from './lash-service.ts';
import { findJob, findShims, lockShims, type ShimLot } from './queries.ts';

const isScrew = ({ row }: Asked): boolean => row.adjuster === 'screw';

const diametersOf = (subjects: readonly Subject[]): readonly number[] => [
  ...new Set(
    subjects.flatMap(({ asked }) => asked.flatMap(({ row }) => (row.shimDiameter === null ? [] : [row.shimDiameter]))),
  ),
];

async function readHeads(sql: Sql, { heads }: HeadsShimsQuestion, at: (index: number) => string) {
  const subjects: Subject[] = [];
  for (const [index, head] of heads.entries()) {
    if (heads.findIndex(({ jobId }) => jobId === head.jobId) !== index) {
      refuseAt(`${at(index)}/jobId`, 'This job is there twice.');
    }
    subjects.push(await readHead(sql, head, at(index)));
  }
  return subjects;
}

/** Chooses for heads that draw on the same bins, as if what they asked for before were back in them. */
async function weigh(sql: Sql, subjects: readonly Subject[], without: readonly string[]): Promise<Weighed> {
  const wishes = await wishesForValves(
    sql,
    subjects.map(({ jobId, asked }) => ({ jobId, valves: asked.map(({ row }) => row.code) })),
  );
  const heads = subjects.map(({ jobId, asked }) => ({
    name: jobId,
    valves: asked.filter((one) => !isScrew(one)).map(sizedValve),
  }));
  const valves = heads.reduce((sum, head) => sum + head.valves.length, 0);
  const lots: ShimLot[] = [];
  const stored: StoredShims[] = [];
  for (const diameter of diametersOf(subjects)) {
    const back = wishes.flatMap(({ shares }) => shares);
    const there = (await findShims(sql, diameter, back)).filter(
      ({ lotId }) => lotId === null || !without.includes(lotId),
    );
    lots.push(...there);
    stored.push(...there.flatMap((lot) => storedOf(lot, { diameter, valves })));
  }
  return { subjects, lots, wishes, choice: chooseForHeads(heads, stored) };
}

function storedOf(lot: ShimLot, of: { readonly diameter: number; readonly valves: number }): readonly StoredShims[] {
  const { source, ...shims } = candidateOf(lot, of.diameter);
  if (source.kind === 'bin') return [{ ...shims, source }];
  // What is bought is bought as often as it is wanted.
  return source.kind === 'buy' ? [{ ...shims, source, count: of.valves }] : [];
}

const inBody = (index: number): string => `/heads/${index}`;

/** The shims for one head or several together (and the turns of their screws), without keeping anything. */
export async function proposeHeadsShims(sql: Sql, question: HeadsShimsQuestion): Promise<HeadsShimsAnswer> {
  return answerOf(await weigh(sql, await readHeads(sql, question, inBody), question.without ?? []));
}

/**
 * Chooses the shims of one head or several, keeps every choice, calls off what the same valves asked for before, asks
 * stores for what comes from there, reserves it out of the chosen lots, and marks what has to be bought as short: all of
 * it or nothing. Tells of it once for each engine.
 */
export async function takeHeadsShims(
  act: Act,
  question: HeadsShimsQuestion,
  at: (index: number) => string = inBody,
): Promise<HeadsShimsAnswer> {
  await openJobs(
    act,
    question.heads.map(({ jobId }) => jobId),
  );
  const subjects = await readHeads(act.sql, question, at);
  await lockShims(act.sql, diametersOf(subjects));
  const weighed = await weigh(act.sql, subjects, question.without ?? []);
  const answer = answerOf(weighed);
  refuseToTake(answer, question);
  await callOffForValves(act, weighed.wishes);
  for (const subject of subjects) await takeHead(act, subject, weighed);
  for (const { engineId, jobId } of subjects) {
    const head = answer.heads.find((one) => one.jobId === jobId);
    await act.event('shims.chosen', {
      engineId,
      jobId,
      data: {
        calledOff: head?.calledOff,
        shims: head?.valves.flatMap(({ name, chosen }) =>
          chosen === null
            ? []
            : [{ valve: name, thickness: chosen.thickness, from: chosen.words, after: chosen.after }],
        ),
      },
    });
  }
  return answer;
}

/** Engines are locked in the order of their ids, whatever the order they were named in. */
async function openJobs(act: Act, jobIds: readonly string[]): Promise<void> {
  const jobs = await Promise.all(
    [...new Set(jobIds)].map(async (jobId) => found(await findJob(act.sql, jobId), 'such job')),
  );
  for (const { jobId } of jobs.toSorted((a, b) => (a.engineId < b.engineId ? -1 : 1))) await openJob(act, jobId);
}

async function takeHead(act: Act, { jobId, asked, rows }: Subject, weighed: Weighed): Promise<void> {
  const from = [];
  for (const one of asked) {
    const choice = choiceFor(weighed, jobId, one.row.code);
    if (choice?.ok !== true) continue;
    const lot = lotOf(weighed.lots, choice.chosen.source);
    await keepChoice(act, { jobId, asked: one, choice, lot, words: sourceWords(choice.chosen.source, lot, rows) });
    if (lot === undefined) continue;
    const wish = { jobId, partId: lot.partId, quantity: 1, valve: one.row.code, words: `shim for ${one.row.name}` };
    from.push({ ...(await demandPart(act, wish)), lotId: lot.lotId, count: 1 });
  }
  await ruleByShims(act, jobId);
  if (from.length > 0) await reserveFromLots(act, { jobId, from });
}

function refuseToTake(answer: HeadsShimsAnswer, question: HeadsShimsQuestion): void {
  if (question.seen !== undefined && question.seen !== answer.seen) {
    throw new ProblemError('conflict', 'The bins or the lash have changed since. Look at the new proposal first.');
  }
  if (answer.heads.every(({ valves }) => valves.every(({ chosen }) => chosen === null))) {
    throw new ProblemError('refused', 'There is no shim to take for any of these valves.');
  }
}

const atRoot = (): string => '';

const forOne = (jobId: string, { valves, ...choosing }: HeadShimsQuestion): HeadsShimsQuestion => ({
  heads: [{ jobId, valves }],
  ...choosing,
});

function onlyOne({ heads, seen }: HeadsShimsAnswer): HeadShimsAnswer {
  const { jobId: _jobId, job: _job, serial: _serial, ...head } = found(heads[0], 'such head');
  return { ...head, seen };
}

/** The shims for the head of one job, without keeping anything. */
export async function proposeHeadShims(sql: Sql, jobId: string, question: HeadShimsQuestion) {
  const subjects = await readHeads(sql, forOne(jobId, question), atRoot);
  return onlyOne(answerOf(await weigh(sql, subjects, question.without ?? [])));
}

/** Takes the shims for the head of one job. */
export async function takeHeadShims(act: Act, jobId: string, question: HeadShimsQuestion) {
  return onlyOne(await takeHeadsShims(act, forOne(jobId, question), atRoot));
}
