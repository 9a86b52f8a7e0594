import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Act, actOn } from '#platform/act.ts';
import { isRetryable } from '#platform/constraint-problem.ts';
import type { Sql, SqlPool } from '#platform/database/client.ts';
import { KeptRefusal, ProblemError } from '#platform/problem.ts';
import { actorOf } from './guard.ts';

/** What a write answers: kept with its key, so that the same key gets the same answer for 90 days. */
export interface Outcome<Body> {
  readonly status: 200 | 201;
  readonly body: Body;
  readonly etag?: string;
}

const KEY = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;
const TRIES = 3;

function keyOf(request: FastifyRequest): string {
  const key = request.headers['idempotency-key'];
  if (typeof key !== 'string' || !KEY.test(key)) {
    throw new ProblemError(
      'idempotency-key-missing',
      'Send a header Idempotency-Key with a UUID of your own for each write, the same again when you repeat it.',
    );
  }
  return key.toLowerCase();
}

/** An entry kept while the network was down says when it was made; not in the future, not older than a week. */
function happenedAtOf(request: FastifyRequest): string | undefined {
  const claimed = request.headers['happened-at'];
  if (claimed === undefined) return undefined;
  const at = typeof claimed === 'string' ? Date.parse(claimed) : Number.NaN;
  const age = Date.now() - at;
  if (!(age > -60_000 && age < 7 * 86_400_000)) {
    throw new ProblemError('invalid-request', 'The header Happened-At must be an instant within the last week.');
  }
  return new Date(at).toISOString();
}

/** One text for one body, however it was spaced; half a surrogate pair is no text, and PostgreSQL would refuse it too. */
function canonicalOf(body: unknown): string {
  if (Buffer.isBuffer(body)) return createHash('sha256').update(body).digest('hex');
  try {
    return canonicalize(body) ?? '';
  } catch {
    throw new ProblemError(
      'invalid-request',
      'A text in the body holds half a character (a lone surrogate). Send whole Unicode characters.',
    );
  }
}

interface Kept {
  readonly fingerprint: Buffer;
  readonly status: number;
  readonly reply: unknown;
  readonly etag: string | null;
}

/**
 * Is the key free, and if it was used, for what and with which answer. Two statements sent in one round trip: the second
 * sees what was committed before the first got the key, which a single one need not.
 */
async function look(sql: Sql, key: string): Promise<{ readonly free: boolean; readonly kept: Kept | undefined }> {
  const [[lock], [kept]] = await Promise.all([
    sql<{ free: boolean }[]>`select pg_try_advisory_xact_lock(hashtextextended(${key}, 0)) as free`,
    sql<Kept[]>`select fingerprint, status, reply, etag from idempotency_key where key = ${key}`,
  ]);
  return { free: lock?.free === true, kept };
}

/** The body as it is fingerprinted: a PIN has few digits, so that a hash of it would tell it. */
function withoutSecrets(body: unknown, secrets: readonly string[]): unknown {
  if (secrets.length === 0 || typeof body !== 'object' || body === null) return body;
  return Object.fromEntries(Object.entries(body).filter(([field]) => !secrets.includes(field)));
}

interface Refused {
  readonly refusal: KeptRefusal;
}

/** A refusal as it is kept with its key, since what led to it stands. */
type RefusalKept = Pick<ProblemError, 'code' | 'extras'> & { readonly detail: string };

/** What was answered at first, done or refused. */
function answeredBefore<Body>({ status, reply, etag }: Kept): Outcome<Body> | Refused {
  if (status < 400)
    return { status: status as Outcome<Body>['status'], body: reply as Body, ...(etag === null ? {} : { etag }) };
  const { code, detail, extras } = reply as RefusalKept;
  return { refusal: new KeptRefusal(code, detail, extras) };
}

/** What the act comes to: a refusal that keeps what it found is no reason to take that back. */
async function outcomeOf<Body>(work: Promise<Outcome<Body>>): Promise<Outcome<Body> | Refused> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof KeptRefusal) return { refusal: error };
    throw error;
  }
}

function toKeep<Body>(outcome: Outcome<Body> | Refused) {
  if (!('refusal' in outcome)) return { ...outcome, etag: outcome.etag ?? null };
  const { code, message: detail, extras, status } = outcome.refusal;
  return { status, body: { code, detail, extras } satisfies RefusalKept, etag: null };
}

interface Asked {
  readonly request: FastifyRequest;
  /** Fields of the body that nothing may be derived from and kept. */
  readonly secrets?: readonly string[];
}

async function attempt<Body>(
  sql: SqlPool,
  { request, secrets = [] }: Asked,
  work: (act: Act) => Promise<Outcome<Body>>,
) {
  const actor = actorOf(request);
  const key = keyOf(request);
  const happenedAt = happenedAtOf(request);
  const fingerprint = createHash('sha256')
    .update([actor.id, request.method, request.url, canonicalOf(withoutSecrets(request.body, secrets))].join('\n'))
    .digest();
  return sql.begin(async (transaction) => {
    const { free, kept } = await look(transaction, key);
    if (kept !== undefined) {
      if (!kept.fingerprint.equals(fingerprint)) {
        throw new ProblemError(
          'key-reused',
          'This Idempotency-Key was used for another write. Make a new one for each write.',
        );
      }
      return answeredBefore<Body>(kept);
    }
    if (!free) {
      throw new ProblemError(
        'in-flight',
        'The same write is being done right now. Ask again in a second, with the same key.',
      );
    }
    const outcome = await outcomeOf(work(actOn(transaction, actor, happenedAt)));
    const { status, body, etag } = toKeep(outcome);
    await transaction`
      insert into idempotency_key (key, fingerprint, actor_id, status, reply, etag)
      values (${key}, ${fingerprint}, ${actor.id}, ${status}, ${transaction.json(body as never)}, ${etag})`;
    return outcome;
  });
}

/**
 * The one way to write: one transaction that holds the act, its event, its idempotency key and its reply.
 * A deadlock or serialization failure is tried again; a refusal leaves nothing, not even the key,
 * unless it says that it keeps what it found.
 */
export async function write<Body>(
  sql: SqlPool,
  { reply, ...asked }: Asked & { readonly reply: FastifyReply },
  work: (act: Act) => Promise<Outcome<Body>>,
): Promise<Body> {
  for (let tries = 1; ; tries += 1) {
    try {
      const outcome = await attempt(sql, asked, work);
      if ('refusal' in outcome) throw outcome.refusal;
      reply.code(outcome.status);
      if (outcome.etag !== undefined) reply.header('etag', outcome.etag);
      return outcome.body;
    } catch (error) {
      if (tries >= TRIES || !isRetryable(error)) throw error;
    }
  }
}

/** A thing's version as an entity tag. */
export const etagOf = (version: number): string => `"${version}"`;

/** Refuses an edit that does not say which version it changes; the service compares it under the row's lock. */
export function versionAsked(request: FastifyRequest): number {
  const tag = request.headers['if-match'];
  const version = typeof tag === 'string' ? /^"(\d{1,9})"$/.exec(tag)?.[1] : undefined;
  if (version === undefined) {
    throw new ProblemError(
      'if-match-missing',
      'Send If-Match with the ETag you read, so that nobody’s change is lost.',
    );
  }
  return Number(version);
}
