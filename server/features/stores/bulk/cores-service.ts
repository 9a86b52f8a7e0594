import type { ChangeCores, CoresChanged } from '#contracts/core-changes.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { insertCoreMark } from '../supply/queries.ts';
import { type CoreNow, lockCores } from './cores-queries.ts';

/** What speaks against the mark of one core; undefined: nothing. */
function against(core: CoreNow | undefined, mark: ChangeCores['mark']): string | undefined {
  if (core === undefined) return 'a core named is not known here';
  const of = `${core.part.name} (${core.part.number}) of ${core.vendor}`;
  if (core.quantity === 0) return `${of} is not owed any more`;
  if (mark === 'sent' && core.state === 'credited') return `${of} is credited already`;
  return undefined;
}

/** Marks several cores as sent or credited in one act, each as if it were marked alone. */
export async function changeCores(act: Act, asked: ChangeCores): Promise<CoresChanged> {
  const { mark, words = '' } = asked;
  const ids = [...new Set(asked.coreIds)];
  const known = new Map((await lockCores(act.sql, ids)).map((core) => [core.id, core]));
  const errors = ids.flatMap((id) => {
    const detail = against(known.get(id), mark);
    return detail === undefined ? [] : [{ pointer: `/coreIds/${asked.coreIds.indexOf(id)}`, detail }];
  });
  if (errors.length > 0) {
    const code = known.size < ids.length ? 'not-found' : 'refused';
    const why = errors.map(({ detail }) => detail).slice(0, 5);
    throw new ProblemError(code, `Nothing was marked: ${why.join('; ')}.`, { errors });
  }
  const marked = ids.flatMap((id) => known.get(id) ?? []).filter(({ state }) => state !== mark);
  for (const { id, part } of marked) {
    await insertCoreMark(act.sql, { coreId: id, mark, words: words.trim(), byId: act.actor.id });
    await act.event('core.marked', { data: { part: part.number, mark, words: words.trim() } });
  }
  return {
    items: marked.map(({ id, part, vendor, quantity, state }) => ({
      core: { id, part, vendor, quantity },
      changes: [{ fact: 'state' as const, from: state, to: mark }],
    })),
    unchanged: ids.length - marked.length,
  };
}
