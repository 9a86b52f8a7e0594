import type { BackIn, Moved, OutsideWork, SendOut } from '#contracts/custody.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { countTrays } from './counting-service.ts';
import {
  endOutsideWork,
  findOutsideWork,
  findOutsideWorks,
  findToday,
  findVendor,
  insertOutsideWork,
  type OutsideWorkRow,
} from './outside-queries.ts';
import { findBayInUse, findHolderName } from './queries.ts';
import { holdingOf, moveTo, refuseWhileOffered, takeEngineLock, takeTrayLocks } from './service.ts';
import { insertOutsideCounts } from './slip-queries.ts';
import { countsOnSlip } from './slip-service.ts';
import { findLooseIn } from './tray-queries.ts';

const subjectOf = (row: OutsideWorkRow) =>
  row.trayId === null
    ? { kind: 'engine' as const, id: row.engineId ?? '', name: row.subjectName }
    : { kind: 'tray' as const, id: row.trayId, name: row.subjectName };

const workOf = (row: OutsideWorkRow): OutsideWork => ({
  id: row.id,
  subject: subjectOf(row),
  vendor: { id: row.vendorId, name: row.vendor },
  work: row.work,
  dueOn: row.dueOn,
  sentAt: row.sentAt,
  sentBy: { id: row.sentById, name: row.sentBy },
  backAt: row.backAt,
  backBy: row.backById === null ? null : { id: row.backById, name: row.backBy ?? '' },
});

export async function listOutsideWork(sql: Sql, jobId: string): Promise<OutsideWork[]> {
  return (await findOutsideWorks(sql, jobId)).map(workOf);
}

/** What is due in the past is late at once, and nobody would ask the vendor for it. */
async function refuseDueBefore(act: Act, dueOn: string): Promise<void> {
  const today = found(await findToday(act.sql), 'shop yet');
  if (dueOn >= today) return;
  throw new ProblemError('refused', `Due back ${dueOn} is past: today is ${today}. Say a day from today on.`, {
    errors: [{ pointer: '/dueOn', detail: `is before today, ${today}` }],
  });
}

/** Sends a tray or the engine to a vendor, who holds it until it is back. Who sends it holds it, or it rests in a bay. */
export async function sendOut(act: Act, jobId: string, asked: SendOut): Promise<Moved & { id: string }> {
  const job = await openJob(act, jobId);
  await refuseDueBefore(act, asked.dueOn);
  const vendor = found(await findVendor(act.sql, asked.vendorId), 'such vendor');
  const trayId = 'trayId' in asked.subject ? asked.subject.trayId : undefined;
  const trays = await takeTrayLocks(act, { jobId, trayIds: trayId === undefined ? [] : [trayId] });
  const subject = trayId === undefined ? { engineId: job.engineId } : { trayId };
  const name = trayId === undefined ? 'the engine' : `tray ${trays[0]?.label ?? ''}`;
  await refuseWhileOffered(act, { ...subject, trayIds: trays.map(({ id }) => id) });
  const { personId, vendorId, ownerId } = await holdingOf(act, subject);
  const others = vendorId ?? ownerId ?? (personId === act.actor.id ? null : personId);
  if (others !== null) {
    const holder = await findHolderName(act.sql, others);
    throw new ProblemError(
      'conflict',
      `${holder} has ${name} now. Only who holds it, or takes it from a bay, sends it out.`,
    );
  }
  const loose = await findLooseIn(act.sql, {
    trayIds: trays.map(({ id }) => id),
    besideOf: trayId === undefined ? { jobId } : undefined,
  });
  const counted = await countTrays(act, {
    engineId: job.engineId,
    jobId,
    act: 'send out',
    trays,
    itself: trayId === undefined,
    counts: asked.counts ?? [],
    withDifference: asked.withDifference ?? false,
  });
  const work = asked.work.trim();
  const id = await insertOutsideWork(act.sql, {
    jobId,
    trayId: trayId ?? null,
    engineId: trayId === undefined ? job.engineId : null,
    vendorId: vendor.id,
    work,
    dueOn: asked.dueOn,
    sentById: act.actor.id,
  });
  await insertOutsideCounts(act.sql, {
    outsideWorkId: id,
    direction: 'out',
    lines: countsOnSlip(loose, { tray: trays[0], counts: asked.counts ?? [] }),
    byId: act.actor.id,
  });
  await moveTo(act, subject, { to: { vendorId: vendor.id }, reason: work });
  await act.event('outside.sent', {
    engineId: job.engineId,
    jobId,
    data: { what: name, vendor: vendor.name, work, dueOn: asked.dueOn, differences: counted.differences },
  });
  return { id, ...counted };
}

/** Takes back what was at a vendor: it rests in the bay where it is put down, counted. */
export async function takeBack(act: Act, id: string, asked: BackIn): Promise<Moved> {
  const before = found(await findOutsideWork(act.sql, id), 'such outside work');
  await takeEngineLock(act, before.jobEngineId);
  const row = found(await findOutsideWork(act.sql, id), 'such outside work');
  if (row.backAt !== null) {
    throw new ProblemError('already-done', `It came back from ${row.vendor} already, taken in by ${row.backBy ?? ''}.`);
  }
  const bay = found(await findBayInUse(act.sql, asked.bayId), 'such bay');
  const trays = await takeTrayLocks(act, { jobId: row.jobId, trayIds: row.trayId === null ? [] : [row.trayId] });
  const loose = await findLooseIn(act.sql, {
    trayIds: trays.map(({ id: trayId }) => trayId),
    besideOf: row.trayId === null ? { jobId: row.jobId } : undefined,
  });
  const counted = await countTrays(act, {
    engineId: row.jobEngineId,
    jobId: row.jobId,
    act: 'back',
    trays,
    itself: row.trayId === null,
    counts: asked.counts ?? [],
    withDifference: asked.withDifference ?? false,
  });
  await insertOutsideCounts(act.sql, {
    outsideWorkId: id,
    direction: 'back',
    lines: countsOnSlip(loose, { tray: trays[0], counts: asked.counts ?? [] }),
    byId: act.actor.id,
  });
  await endOutsideWork(act.sql, { id, byId: act.actor.id });
  const subject = row.trayId === null ? { engineId: row.jobEngineId } : { trayId: row.trayId };
  await moveTo(act, subject, { to: { restBayId: bay.id }, reason: `back from ${row.vendor}` });
  await act.event('outside.back', {
    engineId: row.jobEngineId,
    jobId: row.jobId,
    data: {
      what: row.trayId === null ? 'the engine' : `tray ${row.subjectName}`,
      vendor: row.vendor,
      work: row.work,
      bay: bay.name,
      differences: counted.differences,
    },
  });
  return counted;
}
