import type { QuoteDraft } from '#contracts/counter.ts';
import { minorText, money, multiplyMoney, totalMoney } from '#domain/units/money.ts';
import type { Database } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findDecisions, findDemandedParts, findOutsideWork, findShopTerms, jobExists } from './queries.ts';

type Line = QuoteDraft['lines'][number];

/** What a decision makes of the bench: parts come by the demand, and work that goes out is quoted as such. */
function workOf(decided: string): 'labour' | 'outside work' | undefined {
  if (decided === 'replate' || decided === 'send out') return 'outside work';
  if (['hone', 'bore', 'resurface', 'grind', 'shim', 'replace', 'other'].includes(decided)) return 'labour';
  return undefined;
}

const longest = 300;

/** What is done about what. A finding's figures and the advice about it are for the bench, not for the owner. */
function workWords(
  { words, dimension }: { readonly words: string; readonly dimension: string | null },
  decided: string,
) {
  const said = `${decided === 'replace' ? 'renew' : decided}: ${dimension ?? words}`;
  return said.length <= longest ? said : `${said.slice(0, longest - 1)}…`;
}

/** Lines a quote of this job would hold: demanded parts at their prices, decided work, and what is done outside. */
export async function draftQuote({ sql, prisma }: Database, jobId: string): Promise<QuoteDraft> {
  if (!(await jobExists(prisma, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  const { currency } = found(await findShopTerms(sql), 'shop yet');
  const [parts, decisions, outside] = await Promise.all([
    findDemandedParts(sql, jobId),
    findDecisions(sql, jobId),
    findOutsideWork(sql, jobId),
  ]);
  const nothing = { minor: '0', currency };
  const unpriced = { quantity: 1, each: nothing, priced: false, partId: null };
  const lines: Line[] = [
    ...parts.map(({ partId, name, quantity, priceMinor, obligationId }) => ({
      kind: 'part' as const,
      words: name,
      quantity,
      each: { minor: String(priceMinor), currency },
      priced: priceMinor > 0,
      partId,
      obligationId,
    })),
    ...decisions.flatMap((obligation) => {
      const { id, decided } = obligation;
      const kind = decided === null ? undefined : workOf(decided);
      if (decided === null || kind === undefined) return [];
      return [{ ...unpriced, kind, words: workWords(obligation, decided), obligationId: id }];
    }),
    ...outside.map(({ work, vendor }) => ({
      ...unpriced,
      kind: 'outside work' as const,
      words: `${work} (${vendor})`,
      obligationId: null,
    })),
  ];
  const total = totalMoney(
    lines.map(({ each, quantity }) => multiplyMoney(money(BigInt(each.minor), currency), BigInt(quantity))),
    currency,
  );
  return {
    jobId,
    lines,
    total: { minor: minorText(total), currency },
    undecided: decisions
      .filter(({ decided, discharged }) => decided === null && !discharged)
      .map(({ id, words }) => ({ id, words })),
  };
}
