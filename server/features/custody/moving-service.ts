import type { Leave, Move, Moved, Take } from '#contracts/custody.ts';
import { may } from '#contracts/rights.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import type { MovingAct } from './counting-queries.ts';
import { countTrays } from './counting-service.ts';
import { endOffer } from './handover-queries.ts';
import {
  findBayInUse,
  findJobInShop,
  findOffers,
  findPerson,
  type Holder,
  type Holding,
  type Subject,
} from './queries.ts';
import {
  blindTrays,
  holderNameOf,
  holdingOf,
  moveTo,
  refuseWhileOffered,
  type TrayRow,
  takeEngineLock,
  takeTrayLocks,
} from './service.ts';

interface Moving {
  readonly engine?: boolean | undefined;
  readonly trayIds: readonly string[];
}

interface ToMove {
  readonly job: { readonly id: string; readonly number: number };
  readonly trays: readonly TrayRow[];
  readonly subjects: readonly { readonly subject: Subject; readonly name: string; readonly holding: Holding }[];
}

/** Locks what is to be moved and says who holds each of it now. */
async function lockMoving(act: Act, engineId: string, { engine = true, trayIds }: Moving): Promise<ToMove> {
  await takeEngineLock(act, engineId);
  const job = await findJobInShop(act.sql, engineId);
  if (job === undefined) throw new ProblemError('conflict', 'This engine is not in the shop: it was handed back.');
  if (!engine && trayIds.length === 0)
    throw new ProblemError('refused', 'Say what is moved: the engine, trays, or both.');
  const trays = await takeTrayLocks(act, { jobId: job.id, trayIds });
  const subjects: { subject: Subject; name: string; holding: Holding }[] = [];
  if (engine) {
    const subject = { engineId };
    subjects.push({ subject, name: 'the engine', holding: await holdingOf(act, subject) });
  }
  for (const { id, label } of trays) {
    const subject = { trayId: id };
    subjects.push({ subject, name: `tray ${label}`, holding: await holdingOf(act, subject) });
  }
  return { job, trays, subjects };
}

/** Refuses unless every subject is held as it must be, and says who holds the first that is not. */
async function refuseUnless(act: Act, { subjects }: ToMove, fits: (holding: Holding) => boolean): Promise<void> {
  const wrong = subjects.find(({ holding }) => !fits(holding));
  if (wrong === undefined) return;
  const { personId } = wrong.holding;
  const holder = await holderNameOf(act, wrong.holding);
  const subject = wrong.name.charAt(0).toUpperCase() + wrong.name.slice(1);
  throw new ProblemError(
    'conflict',
    personId === null ? `${subject} is at ${holder} now.` : `${subject} is held by ${holder} now: ask for a handover.`,
  );
}

interface CountedMove {
  readonly engineId: string;
  readonly asked: Pick<Leave, 'counts' | 'withDifference'>;
  readonly moving: ToMove;
  readonly by: MovingAct;
  readonly blind?: ReadonlySet<string>;
}

async function count(act: Act, { engineId, asked, moving, by, blind = new Set() }: CountedMove): Promise<Moved> {
  return countTrays(act, {
    engineId,
    jobId: moving.job.id,
    act: by,
    trays: moving.trays,
    itself: moving.subjects.some(({ subject }) => 'engineId' in subject),
    counts: asked.counts ?? [],
    withDifference: asked.withDifference ?? false,
    blind,
  });
}

async function moveAll(act: Act, { subjects }: ToMove, move: { to: Holder; reason: string }): Promise<void> {
  for (const { subject } of subjects) await moveTo(act, subject, move);
}

const namesOf = ({ subjects }: ToMove): string[] => subjects.map(({ name }) => name);
const trayIdsOf = ({ trays }: ToMove): string[] => trays.map(({ id }) => id);
const engineIn = ({ engine = true }: Moving, engineId: string) => (engine ? { engineId } : {});

/** Takes an engine and trays that rest in a bay, counting the trays: one act. */
export async function take(act: Act, engineId: string, asked: Take): Promise<Moved> {
  const from = found(await findBayInUse(act.sql, asked.bayId), 'such bay');
  const bay = asked.toBayId === undefined ? from : found(await findBayInUse(act.sql, asked.toBayId), 'such bay');
  const moving = await lockMoving(act, engineId, asked);
  await refuseWhileOffered(act, { ...engineIn(asked, engineId), trayIds: trayIdsOf(moving) });
  await refuseUnless(act, moving, (holding) => holding.restBayId === from.id);
  const to = { personId: act.actor.id, placeId: bay.id };
  const moved = await count(act, { engineId, asked, moving, by: 'take' });
  await moveAll(act, moving, { to, reason: 'taken from the bay' });
  await act.event('custody.taken', {
    engineId,
    jobId: moving.job.id,
    data: { what: namesOf(moving), from: from.name, bay: bay.name, differences: moved.differences },
  });
  return moved;
}

/** Leaves an engine and trays at rest in a bay, counting the trays: one act. */
export async function leave(act: Act, engineId: string, asked: Leave): Promise<Moved> {
  const bay = found(await findBayInUse(act.sql, asked.bayId), 'such bay');
  const moving = await lockMoving(act, engineId, asked);
  await refuseWhileOffered(act, { ...engineIn(asked, engineId), trayIds: trayIdsOf(moving) });
  await refuseUnless(act, moving, (holding) => holding.personId === act.actor.id);
  const moved = await count(act, { engineId, asked, moving, by: 'leave' });
  await moveAll(act, moving, { to: { restBayId: bay.id }, reason: 'left in the bay' });
  await act.event('custody.left', {
    engineId,
    jobId: moving.job.id,
    data: { what: namesOf(moving), bay: bay.name, differences: moved.differences },
  });
  return moved;
}

/** A lead moves what somebody absent holds, with a reason and a count. Offers in which it stands are ended. */
export async function moveForAbsent(act: Act, engineId: string, asked: Move): Promise<Moved> {
  const bay = found(await findBayInUse(act.sql, asked.to.bayId), 'such bay');
  const person =
    'personId' in asked.to ? found(await findPerson(act.sql, asked.to.personId), 'such person') : undefined;
  if (person !== undefined && !may(person.roles, 'bench')) {
    throw new ProblemError(
      'refused',
      `${person.name} does not work at the benches, and so can't hold an engine or a tray.`,
    );
  }
  const moving = await lockMoving(act, engineId, asked);
  await refuseUnless(act, moving, ({ vendorId, ownerId }) => vendorId === null && ownerId === null);
  const reason = asked.reason.trim();
  const blind = await blindTrays(act.sql, { jobId: moving.job.id, viewerId: act.actor.id });
  // A count that differs stays though the move is refused, and so do the offers.
  const moved = await count(act, { engineId, asked, moving, by: 'move', blind });
  const offers = await findOffers(act.sql, {
    engineId: engineIn(asked, engineId).engineId ?? null,
    trayIds: trayIdsOf(moving),
  });
  for (const { id } of offers) {
    await endOffer(act.sql, { id, outcome: 'withdrawn', byId: act.actor.id, reason: `moved by the lead: ${reason}` });
  }
  const to = person === undefined ? { restBayId: bay.id } : { personId: person.id, placeId: bay.id };
  await moveAll(act, moving, { to, reason });
  await act.event('custody.moved', {
    engineId,
    jobId: moving.job.id,
    data: {
      what: namesOf(moving),
      to: person?.name ?? bay.name,
      bay: bay.name,
      reason,
      differences: moved.differences,
    },
  });
  return moved;
}
