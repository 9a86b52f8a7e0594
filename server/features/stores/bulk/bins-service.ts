import type { BinFact, BinsChanged, ChangeBins } from '#contracts/bin-changes.ts';
import { furthestPlace } from '#contracts/bin-walk.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { type BinNow, lockBins, writeBins } from './bins-queries.ts';
import { differences, refuseNothing } from './changing.ts';

/** What speaks against the change of one bin; undefined: nothing. */
function against(bin: BinNow | undefined, to: Pick<BinNow, 'walkOrder' | 'closed'> | undefined): string | undefined {
  if (bin === undefined || to === undefined) return 'a bin named is not known here';
  if (to.walkOrder > furthestPlace) return `${bin.code} would come to place ${to.walkOrder}: at most ${furthestPlace}`;
  if (to.closed && !bin.closed && bin.sheet !== null)
    return `${bin.code} is being counted on sheet ${bin.sheet}: end that first`;
  return undefined;
}

const facts = ['walkOrder', 'closed'] as const satisfies BinFact[];

/** What becomes of each bin, under a lock on all of them. */
async function outlook(sql: Sql, { binIds, walk, closed }: ChangeBins) {
  refuseNothing(walk === undefined && closed === undefined);
  const ids = [...new Set(binIds)];
  const known = new Map((await lockBins(sql, ids)).map((bin) => [bin.id, bin]));
  const rows = ids.map((id, at) => {
    const from = known.get(id);
    const walkOrder = walk === undefined ? from?.walkOrder : walk.from + at * walk.step;
    const to = from && { ...from, walkOrder: walkOrder ?? from.walkOrder, closed: closed ?? from.closed };
    return { from, to };
  });
  const errors = rows.flatMap(({ from, to }, at) => {
    const detail = against(from, to);
    return detail === undefined ? [] : [{ pointer: `/binIds/${at}`, detail }];
  });
  if (errors.length > 0) {
    const code = known.size < ids.length ? 'not-found' : 'refused';
    const why = errors.map(({ detail }) => detail).slice(0, 5);
    throw new ProblemError(code, `Nothing was changed: ${why.join('; ')}.`, { errors });
  }
  const changed = rows.flatMap(({ from, to }) => {
    if (from === undefined || to === undefined) return [];
    const changes = differences(facts, from, to);
    return changes.length === 0 ? [] : [{ to, changes }];
  });
  const items = changed.map(({ to, changes }) => ({ bin: { id: to.id, code: to.code }, changes }));
  const unchanged = ids.length - changed.length;
  return { bins: changed.map(({ to }) => to), told: { items, unchanged } satisfies BinsChanged };
}

/** Changes several bins in one act, which keeps from what to what it changed each. */
export async function changeBins(act: Act, asked: ChangeBins): Promise<BinsChanged> {
  const { bins, told: done } = await outlook(act.sql, asked);
  await writeBins(act.sql, bins);
  await act.event('bins.changed', {
    data: { bins: done.items.map(({ bin, changes }) => ({ code: bin.code, changes })) },
  });
  return done;
}
