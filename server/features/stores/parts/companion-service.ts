import type { PartName } from '#contracts/parts.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { type CompanionToKeep, findWhereLeading, keepCompanions } from './companion-queries.ts';

/**
 * Says what goes with a part whenever it is asked for, and how many of it. One that is not known, is named twice, is the
 * part itself or would lead back to it is refused at its place in the list.
 */
export async function writeCompanions(
  act: Act,
  part: PartName,
  companions: readonly CompanionToKeep[] | undefined,
): Promise<void> {
  if (companions === undefined) return;
  const ids = companions.map(({ partId }) => partId);
  const known = new Map((await findWhereLeading(act.sql, { partId: part.id, ids })).map((each) => [each.id, each]));
  for (const [at, id] of ids.entries()) {
    const other = known.get(id);
    const refuse = (code: 'not-found' | 'refused', words: string, detail: string): never => {
      throw new ProblemError(code, words, { errors: [{ pointer: `/companions/${at}/partId`, detail }] });
    };
    if (other === undefined) return refuse('not-found', `There is no part ${id}.`, 'is not known');
    if (id === part.id) return refuse('refused', 'A part cannot go with itself.', 'is the part itself');
    if (ids.indexOf(id) < at)
      return refuse('refused', `${other.number} is named twice. Say once how many.`, 'is named already');
    if (other.leadsBack)
      return refuse(
        'refused',
        `${part.number} goes with ${other.number} already, over what goes with that. Leave one of them out.`,
        'leads back to the part itself',
      );
  }
  await keepCompanions(act.sql, part.id, companions);
}
