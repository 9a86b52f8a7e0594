import type { HandBack, HandBackPage, ProofStanding, ReasonAgainst, RecordProof } from '#contracts/hand-back.ts';
import { may } from '#contracts/rights.ts';
import { againstHandingBack } from '#domain/closing/handing-back.ts';
import { blindTrays, wordsShownTo } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import { openObligation } from '#features/obligations/service.ts';
import { giveBackLoose } from '#features/openings/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findBoxed } from './boxes-queries.ts';
import {
  findAtVendors,
  findJob,
  findNewestQuote,
  findObligations,
  findOffers,
  findOpenDemands,
  findOpenings,
  findProof,
  findProofFacts,
  findProofs,
  findTraysOut,
  findUnsigned,
  insertOverride,
  insertProof,
  insertSignOff,
  noUnusedParts,
  type ProofRow,
} from './queries.ts';
import { sendHome } from './send-home.ts';
import { reasonInWords } from './words.ts';

/** Everything that speaks against handing the engine back, in words. Read under the engine's lock to decide on it. */
export async function reasonsAgainst(
  sql: Sql,
  { jobId, engineId, viewerId }: { jobId: string; engineId: string; viewerId: string },
): Promise<readonly ReasonAgainst[]> {
  const openings = await findOpenings(sql, jobId);
  const reasons = againstHandingBack({
    openOpeningId: openings.open,
    lastClosedAt: openings.lastClosed,
    obligations: await findObligations(sql, engineId),
    proofs: await findProofFacts(sql, jobId),
    newestQuote: (await findNewestQuote(sql, jobId)) ?? null,
    issuedParts: noUnusedParts,
    openDemands: await findOpenDemands(sql, jobId),
    atVendors: await findAtVendors(sql, jobId),
    offeredHandovers: await findOffers(sql, jobId),
    traysOut: await findTraysOut(sql, jobId),
    unsignedMarks: await findUnsigned(sql, jobId),
  });
  const [blind, shown] = [await blindTrays(sql, { jobId, viewerId }), await wordsShownTo(sql, { jobId, viewerId })];
  return reasons.map((reason) =>
    reasonInWords(
      reason.kind === 'obligation-open' ? { ...reason, what: shown(reason.obligationId, reason.what) } : reason,
      blind,
    ),
  );
}

const proofStanding = (row: ProofRow, lastClosedAt: string | null): ProofStanding => ({
  code: row.code,
  name: row.name,
  words: row.words,
  caution: row.caution,
  last:
    row.id === null
      ? null
      : {
          id: row.id,
          passed: row.passed,
          words: row.found,
          by: { id: row.byId, name: row.by },
          at: row.at,
          signedBy: row.signedById === null ? null : { id: row.signedById, name: row.signedBy ?? '' },
          signedAt: row.signedAt,
          stale: lastClosedAt !== null && Date.parse(row.at) < Date.parse(lastClosedAt),
        },
});

/** What was proved, and what still keeps the engine here. */
export async function handBackPage(
  sql: Sql,
  { jobId, viewerId }: { readonly jobId: string; readonly viewerId: string },
): Promise<HandBackPage> {
  const job = found(await findJob(sql, jobId), 'such job');
  const { lastClosedAt } = await findOpenings(sql, jobId);
  const proofs = await findProofs(sql, { jobId, revisionId: job.revisionId });
  return {
    jobId,
    handedBackAt: job.handedBackAt,
    inBoxes: (await findBoxed(sql, jobId)) !== undefined,
    proofs: proofs.map((row) => proofStanding(row, lastClosedAt)),
    reasons:
      job.handedBackAt === null ? [...(await reasonsAgainst(sql, { jobId, engineId: job.engineId, viewerId }))] : [],
  };
}

/** Records a proof. A failed one opens an obligation: somebody must find out why, and open the engine again if need be. */
export async function recordProof(act: Act, jobId: string, asked: RecordProof): Promise<{ id: string }> {
  const job = await openJob(act, jobId);
  const sheet = await findProofs(act.sql, { jobId, revisionId: job.revisionId });
  const proof = sheet.find(({ code }) => code === asked.proof);
  if (proof === undefined) {
    throw new ProblemError(
      'not-found',
      `The spec sheet has no proof ${asked.proof}. It has ${sheet.map(({ code }) => code).join(', ')}.`,
    );
  }
  const { open } = await findOpenings(act.sql, jobId);
  if (open !== null) throw new ProblemError('refused', 'The engine is open. Close it first, then prove it.');
  const words = asked.words.trim();
  const id = await insertProof(act.sql, {
    jobId,
    code: proof.code,
    name: proof.name,
    passed: asked.passed,
    words,
    byId: act.actor.id,
  });
  if (!asked.passed) {
    await openObligation(act, {
      engineId: job.engineId,
      jobId,
      words: `${proof.name} not passed: ${words}`,
      inside: false,
      cause: { raisedById: act.actor.id },
    });
  }
  await act.event(asked.passed ? 'proof.passed' : 'proof.failed', {
    engineId: job.engineId,
    jobId,
    data: { proof: proof.name, words },
  });
  return { id };
}

/** A second person's mark under a passed proof. */
export async function signOffProof(act: Act, proofId: string, words: string): Promise<void> {
  const proof = found(await findProof(act.sql, proofId), 'such proof');
  const job = await openJob(act, proof.jobId);
  if (!proof.passed) throw new ProblemError('refused', 'A proof that was not passed is not signed off.');
  if (proof.signed) throw new ProblemError('already-done', 'This proof is signed off already.');
  if (proof.byId === act.actor.id)
    throw new ProblemError('refused', 'Another person than the one who proved it signs.');
  await insertSignOff(act.sql, { jobId: proof.jobId, proofId, words, byId: act.actor.id });
  await act.event('proof.signed', { engineId: job.engineId, jobId: proof.jobId, data: { proof: proof.name } });
}

/** Hands the engine back to its owner. Refused with every reason against it; a lead may override, by name and reason. */
export async function handBack(act: Act, jobId: string, asked: HandBack): Promise<{ handedBackAt: string }> {
  const job = await openJob(act, jobId);
  const { engineId, ownerId } = found(await findJob(act.sql, jobId), 'such job');
  const reasons = await reasonsAgainst(act.sql, { jobId, engineId, viewerId: act.actor.id });
  if (reasons.length > 0) await overrideOrRefuse(act, { jobId, reasons, words: asked.override });
  if (asked.override !== undefined) await giveBackLoose(act, { jobId, engineId, reason: asked.override.trim() });
  return sendHome(act, {
    ...{ jobId, number: job.number, engineId, ownerId, note: asked.note },
    overridden: reasons.map(({ words }) => words),
    inBoxes: false,
  });
}

/** What no lead overrides: work and custody would go on in an engine that has left. */
const neverOverridden: ReadonlySet<string> = new Set(['opening-open', 'at-vendor', 'handover-offered']);

async function overrideOrRefuse(
  act: Act,
  { jobId, reasons, words }: { jobId: string; reasons: readonly ReasonAgainst[]; words: string | undefined },
): Promise<void> {
  if (words === undefined) {
    throw new ProblemError(
      'not-closed',
      `It can't be handed back yet. ${reasons.map((reason) => reason.words).join(' ')}`,
      { reasons },
    );
  }
  if (!may(act.actor.roles, 'lead')) throw new ProblemError('not-allowed', 'Only a lead hands back over open reasons.');
  if (reasons.some(({ kind }) => neverOverridden.has(kind))) {
    throw new ProblemError(
      'not-closed',
      'An engine that is open, partly at a vendor, or being handed over is handed back by nobody.',
      { reasons },
    );
  }
  await insertOverride(act.sql, {
    jobId,
    reasons: reasons.map((reason) => reason.words),
    words: words.trim(),
    byId: act.actor.id,
  });
}
