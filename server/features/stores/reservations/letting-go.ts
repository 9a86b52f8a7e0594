import type { AnyAct } from '#platform/act.ts';
import { type LineToServe, recordStock, type Standing } from '../ledger/queries.ts';
import { moveOnLine } from '../ledger/service.ts';
import type { LineHold } from './round-queries.ts';

/** What was let go, as an event tells it. */
export interface LetGo {
  readonly released: readonly { readonly part: string; readonly name: string; readonly quantity: number }[];
  /** Numbers of the parts that are not waited for any more. */
  readonly noLongerAsked: readonly string[];
}

interface ToLetGo {
  readonly jobId: string;
  /** All lines of the job, locked as its lots are. */
  readonly lines: readonly LineToServe[];
  readonly holds: readonly LineHold[];
  /** Lines whose asking ends. */
  readonly askings: ReadonlySet<string>;
  readonly reason: string;
}

/** Pieces that were held go back to stock and count as not asked for again, and so does what was short by an asking that ends. */
export async function letGo(act: AnyAct, of: ToLetGo): Promise<LetGo> {
  const { jobId, holds, askings, reason } = of;
  const countOf = (line: LineToServe): number => sumOf(holds.filter(({ demandLineId }) => demandLineId === line.id));
  const touched = of.lines.filter((line) => countOf(line) > 0 || askings.has(line.id));
  if (touched.length === 0) return { released: [], noLongerAsked: [] };
  await recordStock(act.sql, {
    moves: holds.map(({ lotId, demandLineId, count }) => ({
      act: 'release',
      lotId,
      reserved: -count,
      demandLineId,
      jobId,
      reason,
    })),
    holds: holds.map(({ lotId, demandLineId, count }) => ({ lotId, demandLineId, count: -count })),
    standings: touched.map((line) => withoutThem(line, { held: countOf(line), asking: askings.has(line.id) })),
    byId: act.actor?.id ?? null,
  });
  return {
    released: touched.flatMap((line) => {
      const quantity = countOf(line);
      return quantity === 0 ? [] : [{ part: line.number, name: line.name, quantity }];
    }),
    noLongerAsked: touched.filter(({ id }) => askings.has(id)).map(({ number }) => number),
  };
}

const sumOf = (holds: readonly LineHold[]): number => holds.reduce((sum, { count }) => sum + count, 0);

function withoutThem(line: LineToServe, what: { readonly held: number; readonly asking: boolean }): Standing {
  let standing: LineToServe = line;
  if (what.held > 0) standing = { ...line, ...moveOnLine(standing, 'reserved', { to: 'notAsked', count: what.held }) };
  if (what.asking && standing.short > 0)
    standing = { ...line, ...moveOnLine(standing, 'short', { to: 'notAsked', count: standing.short }) };
  return { ...standing, asking: { whole: false, until: null } };
}
