import type { JobName, PartName } from '#contracts/parts.ts';
import type { ToBuy } from '#contracts/supply.ts';
import { packsToBuy } from '#domain/stock/packs.ts';
import type { BuyingFacts } from './buying-queries.ts';
import type { Priced } from './money.ts';

/** Ones of a part that are lacking, before they are rounded to packs. */
export interface ToBuyRow extends BuyingFacts {
  readonly quantity: number;
  readonly job: JobName | null;
  /** The part that the job wants, where it was replaced by this one. */
  readonly insteadOf: PartName | null;
  readonly why: 'short' | 'low';
  /** By which rule of lots the job wants it, in words; empty for the oldest first. */
  readonly rule: string;
}

/** What to buy of one part: the fewest whole packs that cover what jobs lack and what its shelf runs low by. */
function proposalsOf(rows: readonly ToBuyRow[], priced: Priced): readonly ToBuy[] {
  const [first] = rows;
  if (first === undefined) return [];
  const { packSize } = first;
  const lacks = rows.filter(({ why }) => why === 'short');
  const low = rows.filter(({ why }) => why === 'low').reduce((sum, { quantity }) => sum + quantity, 0);
  const jobs = new Map(lacks.flatMap(({ job }) => (job === null ? [] : [[job.id, job] as const])));
  const needs = lacks.map(({ job, quantity }) => ({ jobId: job?.id ?? null, ones: quantity }));
  const jobOf = (id: string | null) => (id === null ? null : (jobs.get(id) ?? null));
  return packsToBuy(needs, low, packSize).map(({ packs, jobId, needs: covered }) => {
    const wanted = covered.map(({ jobId: id, ones }) => ({
      job: jobOf(id),
      quantity: ones,
      rule: id === null ? '' : ruleFor(lacks, id),
    }));
    return {
      part: first.part,
      insteadOf: replacedFor(
        lacks,
        covered.map((need) => need.jobId),
      ),
      unit: first.unit,
      quantity: packs * packSize,
      packs,
      packSize,
      job: jobOf(jobId),
      needs: wanted,
      words: wordsFor(wanted),
      price: priced(first.priceMinor),
      why: covered.every(({ jobId: id }) => id === null) ? 'low' : 'short',
      onHand: first.onHand,
      free: first.free,
      coming: first.coming,
      reorderPoint: first.reorderPoint,
    };
  });
}

/** By which rules of lots a job wants it: of one line as a rule, of several where it wants older numbers too. */
const ruleFor = (lacks: readonly ToBuyRow[], jobId: string): string =>
  [...new Set(lacks.filter(({ job }) => job?.id === jobId).map(({ rule }) => rule))]
    .filter((rule) => rule !== '')
    .join(', ');

/** What its vendor is to be told of it: the rule, and of how many where not all of them are wanted by it. */
function wordsFor(needs: ToBuy['needs']): string {
  const byRule = new Map<string, number>();
  for (const { rule, quantity } of needs) byRule.set(rule, (byRule.get(rule) ?? 0) + quantity);
  if (byRule.size === 1) return needs[0]?.rule ?? '';
  return [...byRule].flatMap(([rule, ones]) => (rule === '' ? [] : [`${ones} ${rule}`])).join('; ');
}

/** Parts that these jobs want and that were replaced by the one to buy, each once. */
function replacedFor(lacks: readonly ToBuyRow[], jobIds: readonly (string | null)[]): PartName[] {
  const old = lacks.flatMap(({ job, insteadOf }) =>
    insteadOf === null || job === null || !jobIds.includes(job.id) ? [] : [[insteadOf.id, insteadOf] as const],
  );
  return [...new Map(old).values()];
}

/** What to buy, part by part in the order in which each is first named. */
export function proposals(rows: readonly ToBuyRow[], priced: Priced): readonly ToBuy[] {
  const byPart = new Map<string, ToBuyRow[]>();
  for (const row of rows) byPart.set(row.part.id, [...(byPart.get(row.part.id) ?? []), row]);
  return [...byPart.values()].flatMap((of) => proposalsOf(of, priced));
}
