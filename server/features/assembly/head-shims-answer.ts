import { createHash } from 'node:crypto';
import { rounded, roundedInterval } from '#contracts/figures.ts';
import type { HeadsShimsAnswer } from '#contracts/head-shims.ts';
import type { ChoiceInHead, HeadsChoice } from '#domain/lash/heads.ts';
import { standingIn } from '#domain/lash/interval.ts';
import { nanometres } from '#domain/units/quantity.ts';
import type { WishForValves } from '#features/stores/demands/service.ts';
import type { Subject } from './head-shims-reading.ts';
import { type Asked, lotOf, sourceWords, turnOf } from './lash-service.ts';
import type { ShimLot } from './queries.ts';
import { noShimInHeadWords } from './words.ts';

/** Heads with everything that was weighed for them; a head is named by its job. */
export interface Weighed {
  readonly subjects: readonly Subject[];
  readonly choice: HeadsChoice;
  readonly lots: readonly ShimLot[];
  /** Asked for before and not handed out: reckoned with as if they were back in the bins. */
  readonly wishes: readonly WishForValves[];
}

type HeadAnswer = HeadsShimsAnswer['heads'][number];
type ValveAnswer = HeadAnswer['valves'][number];

const form = { unit: 'mm', decimals: 3 } as const;

/** What was chosen for a valve of a job; none for a screw. */
export const choiceFor = ({ choice }: Weighed, jobId: string, valve: string): ChoiceInHead | undefined =>
  choice.valves.find((one) => one.head === jobId && one.valve === valve);

export function answerOf(weighed: Weighed): HeadsShimsAnswer {
  const heads = weighed.subjects.map((subject) => headAnswer(subject, weighed));
  const sum = (of: (head: HeadAnswer) => number) => heads.reduce((total, head) => total + of(head), 0);
  return {
    guaranteed: sum(({ guaranteed }) => guaranteed),
    possible: sum(({ possible }) => possible),
    out: sum(({ out }) => out),
    bought: sum(({ bought }) => bought),
    fromBins: sum(({ fromBins }) => fromBins),
    heads,
    seen: seenOf(heads),
  };
}

function headAnswer(subject: Subject, weighed: Weighed): HeadAnswer {
  const { jobId, job, serial, rows, asked } = subject;
  const choices = weighed.choice.valves.filter(({ head }) => head === jobId);
  const count = (of: (one: ChoiceInHead) => boolean) => choices.filter(of).length;
  const from = (kind: 'bin' | 'buy') => count((one) => one.ok && one.chosen.source.kind === kind);
  return {
    jobId,
    job,
    serial,
    guaranteed: count((one) => one.ok && one.standing === 'guaranteed'),
    possible: count((one) => one.ok && one.standing === 'possible'),
    out: count((one) => !one.ok),
    bought: from('buy'),
    fromBins: from('bin'),
    valves: asked.map((one) => valveAnswer(one, subject, weighed)),
    comeOut: weighed.choice.comeOut
      .filter(({ head }) => head === jobId)
      .map(({ valve }) => rows.find(({ code }) => code === valve)?.name ?? valve),
    calledOff: weighed.wishes
      .filter(({ line }) => line.jobId === jobId)
      .map(({ line, pieces }) => `${pieces} × ${line.number}`),
  };
}

function valveAnswer(asked: Asked, subject: Subject, weighed: Weighed): ValveAnswer {
  const { row, lash } = asked;
  const shared = {
    name: row.name,
    lash: roundedInterval(lash.low, lash.high, form),
    before: row.low === null || row.high === null ? ('out' as const) : beforeOf(asked, row.low, row.high),
    movesFrom: null,
    alternatives: [],
  };
  const choice = choiceFor(weighed, subject.jobId, row.code);
  if (choice === undefined) return { ...turnOf(asked), ...shared };
  const wanted = roundedInterval(choice.wanted.low, choice.wanted.high, form);
  if (!choice.ok) {
    const why = noShimInHeadWords(choice.reason, (other) => nameOf(other, subject, weighed));
    return { valve: row.code, wanted, chosen: null, why, turn: null, ...shared };
  }
  return { ...shared, ...chosenAnswer(choice, subject, weighed), valve: row.code, wanted, why: null, turn: null };
}

/** A valve's name; of another engine with its serial. */
function nameOf(valve: { readonly head: string; readonly valve: string }, at: Subject, { subjects }: Weighed): string {
  const owner = subjects.find(({ jobId }) => jobId === valve.head);
  const name = owner?.rows.find(({ code }) => code === valve.valve)?.name ?? valve.valve;
  return owner === undefined || owner === at ? name : `${name} of ${owner.serial}`;
}

const beforeOf = ({ lash }: Asked, low: number, high: number) =>
  standingIn(lash, { low: nanometres(low), high: nanometres(high) });

function chosenAnswer(choice: ChoiceInHead & { readonly ok: true }, { rows }: Subject, { lots }: Weighed) {
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

/** The same for two proposals exactly when they put the same shims into the same valves for the same lash. */
function seenOf(heads: readonly HeadAnswer[]): string {
  const facts = heads.map(({ jobId, valves, calledOff }) => [
    jobId,
    calledOff,
    valves.map(({ valve, lash, wanted, movesFrom, chosen }) => [
      valve,
      lash,
      wanted,
      movesFrom,
      chosen && [chosen.from, chosen.thickness, chosen.partId, chosen.lotId],
    ]),
  ]);
  return createHash('sha256').update(JSON.stringify(facts)).digest('base64url');
}
