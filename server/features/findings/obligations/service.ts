import type { Decide, Decided, Discharge, Obligation, Obligations, RaiseObligation } from '#contracts/obligations.ts';
import { may } from '#contracts/rights.ts';
import { operandsOf } from '#domain/metrology/dimension.ts';
import { type DecisionFault, decisionFault } from '#domain/obligations/disposition.ts';
import { wordsShownTo } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import { actOnObligation, openObligation } from '#features/obligations/service.ts';
import { type DimensionOnSheet, type Sheet, specOf } from '#features/specs/service.ts';
import { callOffDecidedAnew, callOffDischarged, demandPart } from '#features/stores/demands/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findJobFacts } from '../judging/queries.ts';
import { obligationOnWire } from './obligation-wire.ts';
import { findJobsOfObligations, findObligations, insertDisposition, type ObligationRow } from './queries.ts';
import { boringTooSmall } from './too-small.ts';

/** A job's obligations as this viewer may read them: see wordsShownTo. */
async function obligationsFor(sql: Sql, of: { readonly jobId: string; readonly viewerId: string }) {
  const shown = await wordsShownTo(sql, of);
  return (await findObligations(sql, of.jobId)).map((row) => ({ ...row, words: shown(row.id, row.words) }));
}

export async function obligationsOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly viewerId: string },
): Promise<Obligations> {
  found(await findJobFacts(sql, of.jobId), 'such job');
  return { items: (await obligationsFor(sql, of)).map(obligationOnWire) };
}

const oneOnWire = async (act: Act, jobId: string, id: string): Promise<Obligation> =>
  obligationOnWire(
    found(
      (await obligationsFor(act.sql, { jobId, viewerId: act.actor.id })).find((row) => row.id === id),
      'such obligation',
    ),
  );

/** Something a lead wants done or decided before the engine goes on. */
export async function raiseObligation(
  act: Act,
  asked: { readonly jobId: string } & RaiseObligation,
): Promise<Obligation> {
  const job = await openJob(act, asked.jobId);
  const words = asked.words.trim();
  const id = await openObligation(act, {
    engineId: job.engineId,
    jobId: job.id,
    words,
    inside: asked.inside,
    cause: { raisedById: act.actor.id },
  });
  await act.event('obligation.raised', {
    engineId: job.engineId,
    jobId: job.id,
    data: { id, words, inside: asked.inside },
  });
  return oneOnWire(act, job.id, id);
}

/** The one job that all of them are about; the engine is locked before they are read. */
async function jobOf(act: Act, ids: readonly string[]) {
  const known = await findJobsOfObligations(act.sql, ids);
  const [first] = known;
  if (first === undefined || known.length < new Set(ids).size) {
    throw new ProblemError('not-found', 'There is no such obligation.');
  }
  if (known.some(({ jobId }) => jobId !== first.jobId)) {
    throw new ProblemError('refused', 'These obligations are about different jobs. Decide on each job by itself.');
  }
  return openJob(act, first.jobId);
}

function dimensionOf(row: ObligationRow, sheet: Sheet): DimensionOnSheet | undefined {
  return sheet.dimensions.find(({ code }) => code === row.dimension);
}

/** The places that a dimension speaks of; a clearance speaks of two. */
function placesOf(dimension: DimensionOnSheet | undefined, sheet: Sheet): ReadonlySet<string> {
  if (dimension === undefined) return new Set();
  const { method } = dimension;
  const operands = operandsOf(method).map(([, code]) => code);
  const others = sheet.dimensions.filter(({ code }) => operands.includes(code));
  return new Set([dimension, ...others].map(({ place }) => place.code));
}

/** One decision settles several only where they are about one part. */
function refuseSeveralParts(rows: readonly ObligationRow[], sheet: Sheet): void {
  if (rows.length < 2) return;
  const [first, ...others] = rows.map((row) => placesOf(dimensionOf(row, sheet), sheet));
  const shared = [...(first ?? [])].some((place) => others.every((places) => places.has(place)));
  if (!shared) throw new ProblemError('refused', 'These obligations are not about one part. Decide on each by itself.');
}

const faultWords: Readonly<Record<DecisionFault, readonly ['refused' | 'not-allowed', string]>> = {
  'needs-reason': ['refused', 'Say why: a part that is used all the same, or something else, needs a reason.'],
  'needs-lead': ['not-allowed', 'What is past its limit, or was found missing, only a lead accepts by name.'],
  plated: ['refused', 'A plated surface is never bored or honed to size: it is replated or renewed.'],
  'needs-size-class': ['refused', 'Say to which size class it is bored.'],
};

function refuseUnfit(row: ObligationRow, asked: Decide, of: { readonly sheet: Sheet; readonly byLead: boolean }): void {
  if (row.dischargedAt !== null) throw new ProblemError('already-done', `"${row.words}" was discharged already.`);
  const dimension = dimensionOf(row, of.sheet);
  const fault = decisionFault(
    { kind: asked.kind, reason: asked.reason?.trim() ?? '', sizeClass: asked.sizeClass, byLead: of.byLead },
    { verdict: row.verdict ?? undefined, plated: dimension?.place.plated ?? false },
  );
  if (fault !== undefined) throw new ProblemError(...faultWords[fault]);
  if (asked.kind !== 'bore' || asked.sizeClass === undefined || dimension === undefined) return;
  const classes = of.sheet.dimensions
    .filter(({ place }) => place.code === dimension.place.code)
    .flatMap(({ limits }) => [...limits.keys()]);
  if (!classes.includes(asked.sizeClass)) {
    const listed = [...new Set(classes)].join(', ');
    throw new ProblemError('refused', `The spec sheet lists no size class ${asked.sizeClass}. It lists ${listed}.`, {
      errors: [{ pointer: '/sizeClass', detail: 'is not on the spec sheet' }],
    });
  }
}

/** Asks stores for the parts; each is asked for once, for the first of the obligations. */
async function demandAll(act: Act, jobId: string, asked: Decide): Promise<readonly string[]> {
  const [obligationId] = asked.obligationIds;
  const lines: string[] = [];
  for (const { partId, quantity } of asked.demands ?? []) {
    const { demandLineId } = await demandPart(act, {
      jobId,
      partId,
      quantity,
      words: `decided: ${asked.kind}`,
      ...(obligationId === undefined ? {} : { obligationId }),
    });
    lines.push(demandLineId);
  }
  return lines;
}

/**
 * Decides what is to be done about obligations of one part. Using it again discharges them at once, in the name of whoever
 * says so; everything else stays open until a re-measurement proves it or a lead discharges it.
 */
export async function decide(act: Act, asked: Decide): Promise<Decided> {
  const job = await jobOf(act, asked.obligationIds);
  const { sql } = act;
  const asking = { jobId: job.id, viewerId: act.actor.id };
  const rows = (await obligationsFor(sql, asking)).filter(({ id }) => asked.obligationIds.includes(id));
  const sheet = await specOf(sql, job.revisionId);
  refuseSeveralParts(rows, sheet);
  const byLead = may(act.actor.roles, 'lead');
  for (const row of rows) refuseUnfit(row, asked, { sheet, byLead });
  const tooSmall = await boringTooSmall(sql, { ...asked, byLead });
  const reason = asked.reason?.trim() ?? '';
  const byId = act.actor.id;
  const sizeClass = asked.sizeClass ?? null;
  const calledOff = await callOffDecidedAnew(act, {
    jobId: job.id,
    obligationIds: rows.map(({ id }) => id),
    anew: { kind: asked.kind, sizeClass },
  });
  const dispositionId = await insertDisposition(sql, {
    jobId: job.id,
    kind: asked.kind,
    sizeClass,
    reason,
    byId,
  });
  for (const { id } of rows) {
    await actOnObligation(act, { obligationId: id, act: 'decided', dispositionId });
    if (asked.kind === 'reuse')
      await actOnObligation(act, { obligationId: id, act: 'discharged', dispositionId, reason });
  }
  const demandLineIds = await demandAll(act, job.id, asked);
  await act.event('obligation.decided', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      ids: rows.map(({ id }) => id),
      kind: asked.kind,
      sizeClass,
      reason,
      demandLineIds,
      ...(tooSmall === null ? {} : { tooSmall }),
      ...(calledOff.length === 0 ? {} : { calledOff }),
    },
  });
  const after = (await obligationsFor(sql, asking)).filter(({ id }) => asked.obligationIds.includes(id));
  return { dispositionId, obligations: after.map(obligationOnWire), demandLineIds: [...demandLineIds] };
}

/**
 * A lead says by name that it is done, where no re-measurement proves it. What it asked for and nobody has handed out is
 * not wanted for it any more.
 */
export async function dischargeByLead(act: Act, asked: { readonly id: string } & Discharge): Promise<Obligation> {
  const job = await jobOf(act, [asked.id]);
  const row = found(
    (await findObligations(act.sql, job.id)).find(({ id }) => id === asked.id),
    'such obligation',
  );
  if (row.dischargedAt !== null) throw new ProblemError('already-done', 'This obligation was discharged already.');
  const reason = asked.reason.trim();
  await actOnObligation(act, { obligationId: row.id, act: 'discharged', reason });
  await callOffDischarged(act, { jobId: job.id, engineId: job.engineId, obligationIds: [row.id], words: reason });
  await act.event('obligation.discharged', { engineId: job.engineId, jobId: job.id, data: { id: row.id, reason } });
  return oneOnWire(act, job.id, row.id);
}
