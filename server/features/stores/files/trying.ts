import { type Act, type Actor, actOn } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';

/** What an act would bring: it is done, with every rule that the database holds, and then undone. */
export async function tried<Told>(db: SqlPool, actor: Actor, work: (act: Act) => Promise<Told>): Promise<Told> {
  const undo = new Error('undone on purpose');
  let told: { readonly by: Told } | undefined;
  try {
    await db.begin(async (sql) => {
      told = { by: await work(actOn(sql, actor)) };
      throw undo;
    });
  } catch (error) {
    if (error !== undo) throw error;
  }
  if (told === undefined) throw undo;
  return told.by;
}
