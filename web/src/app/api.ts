import type { Problem } from '#contracts/problems.ts';
import { newKey } from './key.ts';

/** A refusal of the server, in its words. `status` 0 means that the network did not answer. */
export class RefusedError extends Error {
  override readonly name = 'RefusedError';
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.detail);
    this.problem = problem;
  }

  /** The last part of the problem's type, e.g. `unit-slip`. */
  get code(): string {
    return this.problem.type.split(':').at(-1) ?? '';
  }

  get offline(): boolean {
    return this.problem.status === 0;
  }
}

const noNetwork: Problem = { type: 'urn:crosshatch:problem:no-network', title: 'No network', status: 0, detail: '' };

async function ask(path: string, init: RequestInit): Promise<Response> {
  const response = await fetch(`/api${path}`, { credentials: 'same-origin', ...init }).catch(() => undefined);
  if (response === undefined) throw new RefusedError(noNetwork);
  if (response.ok) return response;
  const problem = (await response.json().catch(() => undefined)) as Problem | undefined;
  throw new RefusedError(problem ?? { ...noNetwork, status: response.status, title: response.statusText });
}

/** Reads one thing. */
export async function read<Reply>(path: string, signal?: AbortSignal): Promise<Reply> {
  const response = await ask(path, signal === undefined ? {} : { signal });
  return (await response.json()) as Reply;
}

/** Reads one thing with the ETag that an edit of it must name. */
export async function readTagged<Reply>(path: string, signal?: AbortSignal) {
  const response = await ask(path, signal === undefined ? {} : { signal });
  return { body: (await response.json()) as Reply, etag: response.headers.get('etag') ?? '' };
}

export interface WriteOptions {
  readonly method?: 'POST' | 'PATCH' | 'PUT' | 'DELETE';
  /** The same key again when the same write is repeated; a new one by default. */
  readonly key?: string;
  /** The ETag that was read, where two people may edit one thing. */
  readonly ifMatch?: string;
  /** A file instead of JSON. */
  readonly csv?: string;
  /** When it was done, for an entry kept while the network was down. */
  readonly happenedAt?: string;
  /** Given up after so many milliseconds, as if the network were down. */
  readonly within?: number;
}

/** Asks for a file that is made of what is sent; nothing is written. */
export async function sendForFile(path: string, body: unknown): Promise<Blob> {
  const headers = { 'content-type': 'application/json' };
  return (await ask(path, { method: 'POST', headers, body: JSON.stringify(body) })).blob();
}

/** Writes once: a repeat with the same key is answered the same and done no second time. */
export async function send<Reply>(path: string, body?: unknown, options: WriteOptions = {}): Promise<Reply> {
  const headers: Record<string, string> = { 'idempotency-key': options.key ?? newKey() };
  if (options.ifMatch !== undefined) headers['if-match'] = options.ifMatch;
  if (options.happenedAt !== undefined) headers['happened-at'] = options.happenedAt;
  if (options.csv !== undefined) headers['content-type'] = 'text/csv';
  else if (body !== undefined) headers['content-type'] = 'application/json';
  const response = await ask(path, {
    method: options.method ?? 'POST',
    headers,
    ...(options.within === undefined ? {} : { signal: AbortSignal.timeout(options.within) }),
    ...(options.csv !== undefined ? { body: options.csv } : body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  return (response.status === 204 ? undefined : await response.json()) as Reply;
}
