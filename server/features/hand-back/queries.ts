import type { OpenObligation } from '#domain/closing/closing-the-opening.ts';
import type { IssuedPart, NamedSubject, OpenDemand, Proof, QuoteFact } from '#domain/closing/handing-back.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findJob(sql: Sql, jobId: string) {
  const [job] = await sql<
    { id: string; engineId: string; ownerId: string; revisionId: string; handedBackAt: string | null }[]
  >`
    select j.id, j.engine_id as "engineId", e.owner_id as "ownerId", j.revision_id as "revisionId", j.handed_back_at as "handedBackAt"
    from job j join engine e on e.id = j.engine_id where j.id = ${jobId}`;
  return job;
}

export interface ProofRow {
  readonly code: string;
  readonly name: string;
  readonly words: string;
  readonly caution: string;
  readonly id: string | null;
  readonly passed: boolean;
  readonly found: string;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
  readonly signedById: string | null;
  readonly signedBy: string | null;
  readonly signedAt: string | null;
}

/** The sheet's proofs, each with its newest try in this job. */
export async function findProofs(sql: Sql, of: { jobId: string; revisionId: string }): Promise<readonly ProofRow[]> {
  return sql<ProofRow[]>`
    select sp.code, sp.name, sp.words, sp.caution, p.id, p.passed, p.words as found, w.id as "byId", w.name as by, p.proved_at as at,
           s.signed_by_id as "signedById", sw.name as "signedBy", s.signed_at as "signedAt"
    from spec_proof sp
    left join lateral (
      select * from proof p where p.job_id = ${of.jobId} and p.proof_code = sp.code order by p.proved_at desc, p.id desc limit 1) p on true
    left join person w on w.id = p.proved_by_id
    left join sign_off s on s.proof_id = p.id
    left join person sw on sw.id = s.signed_by_id
    where sp.revision_id = ${of.revisionId} order by sp.ordinal`;
}

export async function insertProof(
  sql: Sql,
  proof: { jobId: string; code: string; name: string; passed: boolean; words: string; byId: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into proof (id, job_id, proof_code, name, passed, words, proved_by_id)
    values (${id}, ${proof.jobId}, ${proof.code}, ${proof.name}, ${proof.passed}, ${proof.words}, ${proof.byId})`;
  return id;
}

export async function findProof(sql: Sql, id: string) {
  const [row] = await sql<{ jobId: string; name: string; passed: boolean; byId: string; signed: boolean }[]>`
    select p.job_id as "jobId", p.name, p.passed, p.proved_by_id as "byId",
           exists (select from sign_off s where s.proof_id = p.id) as signed
    from proof p where p.id = ${id}`;
  return row;
}

export async function insertSignOff(
  sql: Sql,
  sign: { jobId: string; proofId: string; words: string; byId: string },
): Promise<void> {
  await sql`
    insert into sign_off (id, job_id, proof_id, words, signed_by_id)
    values (${newId()}, ${sign.jobId}, ${sign.proofId}, ${sign.words}, ${sign.byId})`;
}

/** The job's openings: the one open now, and when the last was closed (in whole microseconds). */
export async function findOpenings(sql: Sql, jobId: string) {
  const [row] = await sql<{ open: string | null; lastClosed: number | null; lastClosedAt: string | null }[]>`
    select (select id from opening where job_id = ${jobId} and closed_at is null) as open,
           (extract(epoch from max(closed_at)) * 1000000)::bigint as "lastClosed", max(closed_at) as "lastClosedAt"
    from opening where job_id = ${jobId}`;
  return row ?? { open: null, lastClosed: null, lastClosedAt: null };
}

export async function findProofFacts(sql: Sql, jobId: string): Promise<readonly Proof[]> {
  return sql<Proof[]>`
    select id, name as what, (extract(epoch from proved_at) * 1000000)::bigint as at, passed from proof where job_id = ${jobId}`;
}

export async function findObligations(sql: Sql, engineId: string): Promise<readonly OpenObligation[]> {
  return sql<OpenObligation[]>`
    select id, words as what, inside from obligation where engine_id = ${engineId} and discharged_at is null order by opened_at`;
}

export async function findNewestQuote(sql: Sql, jobId: string): Promise<QuoteFact | undefined> {
  const [row] = await sql<
    { id: string; yes: boolean | null }[]
  >`select quote_id as id, yes from job_quote where job_id = ${jobId}`;
  return row === undefined ? undefined : { id: row.id, answer: row.yes === null ? null : row.yes ? 'yes' : 'no' };
}

/** Parts the job still asks stores for. */
export async function findOpenDemands(sql: Sql, jobId: string): Promise<readonly OpenDemand[]> {
  return sql<OpenDemand[]>`
    select d.id as "demandLineId", p.name as what, d.reserved + d.short + d.not_asked as count
    from demand_line d join part p on p.id = d.part_id
    where d.job_id = ${jobId} and d.reserved + d.short + d.not_asked > 0 order by p.name`;
}

export async function findAtVendors(
  sql: Sql,
  jobId: string,
): Promise<readonly (NamedSubject & { readonly vendorId: string })[]> {
  return sql<(NamedSubject & { vendorId: string })[]>`
    select coalesce(w.tray_id, w.engine_id) as "subjectId", v.name as what, w.vendor_id as "vendorId"
    from outside_work w join vendor v on v.id = w.vendor_id where w.job_id = ${jobId} and w.back_at is null`;
}

export async function findOffers(sql: Sql, jobId: string) {
  return sql<{ handoverId: string; what: string }[]>`
    select h.id as "handoverId", p.name as what from handover h join person p on p.id = h.receiver_id
    where h.job_id = ${jobId} and h.ended_at is null`;
}

/** Trays that still hold loose pieces. */
export async function findTraysOut(sql: Sql, jobId: string) {
  return sql<(NamedSubject & { pieces: number })[]>`
    select t.id as "subjectId", t.label as what, sum(i.count)::int as pieces
    from tray t join piece_in_tray i on i.tray_id = t.id
    where t.job_id = ${jobId} and t.emptied_at is null
    group by t.id, t.label having sum(i.count) > 0 order by t.label`;
}

/** Passed proofs that nobody but the prover has signed. */
export async function findUnsigned(sql: Sql, jobId: string) {
  return sql<{ id: string; what: string }[]>`
    select p.id, p.name as what from proof p
    where p.job_id = ${jobId} and p.passed and not exists (select from sign_off s where s.proof_id = p.id)
      and not exists (select from proof n where n.job_id = p.job_id and n.proof_code = p.proof_code and n.proved_at > p.proved_at)`;
}

/** Parts handed out of which fewer came back than were not needed cannot be known here: what was issued counts as used. */
export const noUnusedParts: readonly IssuedPart[] = [];

export async function updateHandedBack(sql: Sql, of: { jobId: string; byId: string; note: string }): Promise<string> {
  const [row] = await sql<{ at: string }[]>`
    update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${of.byId}, handed_back_note = ${of.note}, version = version + 1
    where id = ${of.jobId} returning handed_back_at as at`;
  return row?.at ?? '';
}

export async function insertOverride(
  sql: Sql,
  of: { jobId: string; reasons: readonly string[]; words: string; byId: string },
): Promise<void> {
  await sql`
    insert into override (id, job_id, gate, reasons, words, overridden_by_id)
    values (${newId()}, ${of.jobId}, 'hand back', ${sql.json(of.reasons as never)}, ${of.words}, ${of.byId})`;
}
