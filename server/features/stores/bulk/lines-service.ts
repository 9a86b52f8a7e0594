import type { ChangeLines, LinesChanged } from '#contracts/line-changes.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { waitsFor } from '../promising/service.ts';
import { keepDate, refuseUnsaid } from '../supply/dating.ts';
import { lockPurchaseLines, type PurchaseLine } from '../supply/queries.ts';
import { differences } from './changing.ts';

/** The lines in the order in which they are named, each once, under a lock on all of them; refused where one cannot get a day. */
async function linesToDate(sql: Sql, lineIds: readonly string[]): Promise<readonly PurchaseLine[]> {
  const ids = [...new Set(lineIds)];
  const known = new Map((await lockPurchaseLines(sql, ids)).map((line) => [line.id, line]));
  const errors = ids.flatMap((id) => {
    const detail = against(known.get(id));
    return detail === undefined ? [] : [{ pointer: `/lineIds/${lineIds.indexOf(id)}`, detail }];
  });
  if (errors.length > 0) {
    const why = errors.map(({ detail }) => detail).slice(0, 5);
    throw new ProblemError(
      known.size < ids.length ? 'not-found' : 'refused',
      `Nothing was changed: ${why.join('; ')}.`,
      { errors },
    );
  }
  return ids.flatMap((id) => known.get(id) ?? []);
}

function against(line: PurchaseLine | undefined): string | undefined {
  if (line === undefined) return 'a line named is not known here';
  if (line.received < line.quantity) return undefined;
  const of = line.orderNumber === null ? '' : ` on order ${line.orderNumber}`;
  return `of ${line.part.name} (${line.part.number})${of} nothing is to come any more`;
}

/** Gives several purchase lines one day, each as if it were told alone; tells who waits and gets the pieces on another day by it. */
export async function changeLines(act: Act, asked: ChangeLines): Promise<LinesChanged> {
  const lines = await linesToDate(act.sql, asked.lineIds);
  const given = { promisedOn: asked.promisedOn, words: asked.words?.trim() ?? '' };
  const moved = lines.filter(({ promisedOn }) => promisedOn !== given.promisedOn);
  refuseUnsaid(moved, given);
  const partIds = [...new Set(moved.map(({ partId }) => partId))];
  const before = new Map((await waitsFor(act.sql, partIds)).map((wait) => [wait.demandLineId, wait]));
  for (const line of moved) await keepDate(act, line, given);
  const after = await waitsFor(act.sql, partIds);
  return {
    items: moved.map((line) => ({
      line: { id: line.id, orderNumber: line.orderNumber, part: line.part },
      changes: differences(['promisedOn'], line, given),
    })),
    unchanged: lines.length - moved.length,
    waits: after.flatMap(({ demandLineId, on: to, ...wait }) => {
      const from = before.get(demandLineId)?.on ?? null;
      return from === to ? [] : [{ ...wait, from, to }];
    }),
  };
}
