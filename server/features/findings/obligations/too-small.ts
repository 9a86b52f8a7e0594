import type { Decide } from '#contracts/obligations.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { outlookOf } from './outlook.ts';

/**
 * Refuses boring to a size that what was measured does not clean up at, and names the smallest that will do. The lead may
 * decide on it all the same, and says why.
 * @returns what speaks against the size, where the lead decides on it; null: nothing does
 */
export async function boringTooSmall(
  sql: Sql,
  asked: Pick<Decide, 'obligationIds' | 'kind' | 'sizeClass' | 'reason'> & { readonly byLead: boolean },
): Promise<string | null> {
  if (asked.kind !== 'bore' || asked.sizeClass === undefined) return null;
  for (const id of asked.obligationIds) {
    const { choice } = await outlookOf(sql, id);
    const small = choice?.tooSmall.find(({ sizeClass }) => sizeClass === asked.sizeClass);
    if (choice === null || small === undefined) continue;
    const least =
      choice.sizeClass === null
        ? 'No size on the sheet will do: the bore is sleeved or renewed.'
        : `${choice.sizeClass} is the smallest that will do.`;
    if (asked.byLead && (asked.reason?.trim() ?? '') !== '') return `${small.words} ${least}`;
    const [pointer, detail, all] = asked.byLead
      ? ['/reason', 'is needed for a size that is too small', 'Say in reason why it is bored to it all the same.']
      : [
          '/sizeClass',
          'is too small for what was measured',
          'Only a lead may decide on it all the same, with a reason.',
        ];
    throw new ProblemError('refused', `${small.words} ${least} ${all}`, { errors: [{ pointer, detail }] });
  }
  return null;
}
