import { shortOnTally } from '#features/openings/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import type { Mark } from './queries.ts';
import type { StepRow } from './run-queries.ts';
import { marksOf, openInterruption, type RunFacts, standingOfRun } from './run-view.ts';

export const whereOf = ({ ordinal, title }: StepRow): string => `Step ${ordinal}, ${title}`;

/** While a run is interrupted nothing is marked: whoever goes on reads first what is loose. */
export function refuseWhileInterrupted(facts: RunFacts): void {
  const left = openInterruption(facts);
  if (left === undefined) return;
  throw new ProblemError(
    'conflict',
    `${left.by} left this procedure (${left.why}). Loose or half done: ${left.loose}. Read it and resume first.`,
    { interruptionId: left.id },
  );
}

/** A step that is left out, or whose question is open, is not worked at. */
export function refuseWhereItStandsNot(facts: RunFacts, step: StepRow): void {
  const told = standingOfRun(facts).byStep.get(step.id);
  if (told?.standing === 'left out') {
    throw new ProblemError(
      'conflict',
      `${whereOf(step)} is left out here: a fact of the engine or an answer speaks against it.`,
    );
  }
  if (told?.standing === 'not known yet') {
    throw new ProblemError(
      'conflict',
      `${whereOf(step)} stands on a question that is not answered yet. Answer that first.`,
    );
  }
}

/** A mark that was made already, or that the step or its other marks speak against. */
export function refuseWrongMark(
  facts: RunFacts,
  step: StepRow,
  asked: { mark: Mark; reason: string; byId: string },
): void {
  const made = (mark: Mark) => marksOf(facts, step.id).find((row) => row.mark === mark);
  const same = made(asked.mark);
  const where = whereOf(step);
  if (same !== undefined) throw new ProblemError('already-done', `${where}: ${same.by} marked it so already.`);
  const [done, skipped] = [made('done'), made('skipped')];
  if (skipped !== undefined)
    throw new ProblemError('conflict', `${where}: ${skipped.by} skipped it (${skipped.reason}).`);
  if (asked.mark === 'skipped') {
    if (step.secondPerson) {
      throw new ProblemError(
        'refused',
        `${where} is a stop point for two people: it is done and looked at, never skipped.`,
      );
    }
    if (done !== undefined) throw new ProblemError('conflict', `${where}: ${done.by} has done it.`);
    if (asked.reason === '') throw new ProblemError('refused', `${where}: say why it is skipped.`);
  }
  if (asked.mark === 'second person') {
    if (!step.secondPerson) throw new ProblemError('refused', `${where} asks for no second person.`);
    if (done === undefined)
      throw new ProblemError('conflict', `${where} is not done yet: the second person marks it after.`);
    if (done.byId === asked.byId) {
      throw new ProblemError('refused', `${where}: you did it yourself. Another person has to look and mark it.`);
    }
  }
}

/** A stop point stops: nothing after it is done before another person has looked. */
function refuseBeyondStop(facts: RunFacts, step: StepRow): void {
  const heldAt = standingOfRun(facts).progress.heldAtId;
  const held = facts.steps.find(({ id }) => id === heldAt);
  if (held === undefined || step.ordinal <= held.ordinal) return;
  throw new ProblemError(
    'conflict',
    `Stop: ${whereOf(held)} waits for a second person. Nothing after it is marked done until they have looked and signed.`,
    { heldAtStepId: held.id },
  );
}

function refuseUnanswered({ answers }: RunFacts, step: StepRow): void {
  if (step.asks === null || answers.some(({ stepId }) => stepId === step.id)) return;
  throw new ProblemError('conflict', `${whereOf(step)}: answer first: ${step.asks.words}`);
}

/** A dimension the job's sheet doesn't have can't be measured, so it isn't asked for. */
function refuseUnmeasured(step: StepRow): void {
  const missing = step.readings.filter(({ measured, name }) => !measured && name !== null);
  if (missing.length === 0) return;
  const list = missing.map(({ name, round }) => `${name} (${round})`).join('; ');
  throw new ProblemError('conflict', `${whereOf(step)}: not measured yet: ${list}. Measure, then mark the step.`, {
    missingReadings: missing.map(({ dimension, round }) => ({ dimension, round })),
  });
}

/** A photo point holds its step open until a photo stands, or somebody says why there is none. */
function refuseUnphotographed(step: StepRow, noPhoto: string): void {
  if (step.photo === '' || step.photos > 0 || noPhoto !== '') return;
  throw new ProblemError(
    'conflict',
    `${whereOf(step)} asks for a photo (${step.photo}). Take it, or say why there is none.`,
    { missingPhoto: step.photo },
  );
}

interface Holding {
  readonly words: string;
  readonly pieceId: string | null;
  readonly stepPieceId: string | null;
  readonly href: string;
}

/** Pieces that were counted and are short. Which run counted them is all one: they may be in the engine. */
async function shortCounts(act: Act, { run, steps }: RunFacts): Promise<readonly Holding[]> {
  return (await shortOnTally(act, run.jobId)).map(({ name, stepId, counts, ...rest }) => {
    const step = steps.find(({ id }) => id === stepId);
    const where = step === undefined ? '' : ` (step ${step.ordinal})`;
    const tells = counts === undefined ? 'short' : `${counts.off} of ${counts.expected} off`;
    return { words: `${name}${where}: ${tells}`, ...rest, ...counts };
  });
}

/** Pieces of this or an earlier step of a strip that nobody has counted. */
function notCounted(facts: RunFacts, step: StepRow): readonly Holding[] {
  const { run, steps, pieces } = facts;
  if (run.kind !== 'strip') return [];
  const { byStep } = standingOfRun(facts);
  const outside = ['skipped', 'left out', 'not known yet'];
  const upToHere = steps.filter(
    ({ id, ordinal }) => ordinal <= step.ordinal && !outside.includes(byStep.get(id)?.standing ?? ''),
  );
  return upToHere.flatMap(({ id, ordinal }) =>
    pieces
      .filter((piece) => piece.stepId === id && !piece.counted && piece.expected > 0)
      .map((piece) => ({
        words: `${piece.name} (step ${ordinal}): not counted yet`,
        pieceId: null,
        stepPieceId: piece.id,
        expected: piece.expected,
        off: 0,
        href: `/bench/${run.jobId}/procedure?step=${id}`,
      })),
  );
}

/** Work stops while a piece is short; a step of a strip is not done either before its own and earlier pieces are counted. */
export async function refuseWhileShort(
  act: Act,
  { facts, step, mark }: { readonly facts: RunFacts; readonly step: StepRow; readonly mark: Mark },
): Promise<void> {
  const short = [...(await shortCounts(act, facts)), ...(mark === 'done' ? notCounted(facts, step) : [])];
  if (short.length === 0) return;
  throw new ProblemError(
    'conflict',
    `Stop: ${short.map(({ words }) => words).join('; ')}. Count them off, find them, or say that they were never there or may be inside.`,
    {
      errors: short.map(({ words }) => ({ pointer: '/mark', detail: words })),
      shortPieces: short,
      href: short[0]?.href,
    },
  );
}

/** All else that holds a step open. */
export function refuseUndone({
  facts,
  step,
  noPhoto,
}: {
  readonly facts: RunFacts;
  readonly step: StepRow;
  readonly noPhoto: string;
}): void {
  refuseBeyondStop(facts, step);
  refuseUnanswered(facts, step);
  refuseUnmeasured(step);
  refuseUnphotographed(step, noPhoto);
}
