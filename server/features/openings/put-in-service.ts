import type { PutIn, PutInChange, PutInThing } from '#contracts/searches.ts';
import type { EngineEventKind } from '#domain/custody/engine-events.ts';
import { refuseWhileOffered } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockOpenOpening } from './open-opening.ts';
import { findThings, insertThing, insertThingAct, type PutInAct, type ThingRow } from './put-in-queries.ts';
import { findSearches } from './search-queries.ts';
import { endSearches, openSearch } from './search-rules.ts';

export const thingOf = ({ openingId: _, byId, by, ...row }: ThingRow): PutInThing => ({
  ...row,
  by: { id: byId, name: by },
  acts: row.acts.map((act) => ({ ...act, at: new Date(act.at).toISOString() })),
});

export async function listThings(sql: Sql, openingId: string): Promise<PutInThing[]> {
  return (await findThings(sql, { openingId })).map(thingOf);
}

async function thing(act: Act, id: string): Promise<ThingRow> {
  return found((await findThings(act.sql, { id }))[0], 'such rag or plug');
}

/** Puts a rag, a plug or a tool into the open engine; it is counted until it has come out. */
export async function putIn(act: Act, openingId: string, asked: PutIn): Promise<PutInChange> {
  const opening = await lockOpenOpening(act, openingId);
  await refuseWhileOffered(act, { engineId: opening.engineId });
  const where = asked.where.trim();
  const name = asked.name?.trim() ?? asked.kind;
  const { kind, count } = asked;
  const id = await insertThing(act.sql, { openingId, kind, name, where, count, byId: act.actor.id });
  const { engineId, jobId } = opening;
  await act.event('put-in.put', { engineId, jobId, data: { openingId, name, where, count } });
  return { thing: thingOf(await thing(act, id)), searchId: null };
}

interface ThingAct {
  readonly id: string;
  readonly act: PutInAct;
  readonly count: number;
  readonly reason: string;
}

const eventKinds: Readonly<Record<PutInAct, EngineEventKind>> = {
  'taken out': 'put-in.taken-out',
  'not found': 'put-in.not-found',
  found: 'put-in.found',
  'not inside': 'put-in.not-inside',
};

function refuseWrongCount(row: ThingRow, { act, count }: ThingAct): void {
  const name = `${row.name}, ${row.where}`;
  const known = row.stillIn - row.notFound;
  if ((act === 'taken out' || act === 'not found') && count > known) {
    const lost = row.notFound === 0 ? '' : ` (${row.notFound} were not found, say found for these)`;
    throw new ProblemError('refused', `${name}: ${known} are still in${lost}, not ${count}. Count again.`);
  }
  if ((act === 'found' || act === 'not inside') && count > row.notFound) {
    throw new ProblemError('refused', `${name}: ${row.notFound} are being looked for, not ${count}.`);
  }
}

/** Takes something out of the engine, or says that it was not found there: then it may be inside, and a search opens. */
export async function settleThing(act: Act, asked: ThingAct): Promise<PutInChange> {
  const { openingId } = await thing(act, asked.id);
  const opening = await lockOpenOpening(act, openingId);
  await refuseWhileOffered(act, { engineId: opening.engineId });
  const before = await thing(act, asked.id);
  refuseWrongCount(before, asked);
  const reason = asked.reason.trim();
  await insertThingAct(act.sql, { ...asked, reason, byId: act.actor.id });
  const what = `${before.name}, ${before.where}`;
  if (asked.act === 'not found') {
    const cause = { putInId: asked.id, raisedById: act.actor.id };
    await openSearch(act, opening, {
      words: `May be inside: ${asked.count} × ${what}. ${reason}`,
      count: asked.count,
      cause,
    });
  }
  if (asked.act === 'found' || asked.act === 'not inside') {
    const why = asked.act === 'found' ? `Found: ${reason}` : `Not inside: ${reason}`;
    await endSearches(act, { pieceId: asked.id, outcome: asked.act, reason: why });
  }
  const { engineId, jobId } = opening;
  const data = { openingId, name: before.name, where: before.where, count: asked.count, reason };
  await act.event(eventKinds[asked.act], { engineId, jobId, data });
  const [search] = await findSearches(act.sql, { openOf: asked.id });
  return { thing: thingOf(await thing(act, asked.id)), searchId: search?.id ?? null };
}
