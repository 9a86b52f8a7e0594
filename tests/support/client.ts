import type { FastifyInstance } from 'fastify';
import { SESSION_COOKIE } from '#platform/identity/sessions.ts';

/** What a request of a test was answered. */
export interface Answer {
  readonly status: number;
  // biome-ignore lint/suspicious/noExplicitAny: a test reads the reply as JSON of whatever form it asserts
  readonly body: any;
  readonly headers: Readonly<Record<string, unknown>>;
}

/** Somebody signed in: their requests carry the session, and each write a key of its own unless one is given. */
export interface Client {
  readonly get: (url: string) => Promise<Answer>;
  readonly post: (url: string, body?: object | string, headers?: Record<string, string>) => Promise<Answer>;
  readonly patch: (url: string, body: object | string, headers?: Record<string, string>) => Promise<Answer>;
  readonly put: (url: string, body: object | string, headers?: Record<string, string>) => Promise<Answer>;
  readonly remove: (url: string, headers?: Record<string, string>) => Promise<Answer>;
}

interface Asked {
  readonly method: 'GET' | 'POST' | 'PATCH' | 'PUT' | 'DELETE';
  readonly url: string;
  readonly body: string | undefined;
  readonly headers: Readonly<Record<string, string>>;
}

interface Told {
  readonly status: number;
  readonly text: string;
  readonly headers: Readonly<Record<string, unknown>>;
}

/** How requests get to a server. */
export type Door = (asked: Asked) => Promise<Told>;

/** Straight into a server of this process. */
export const doorOf =
  (app: FastifyInstance): Door =>
  async ({ method, url, body, headers }) => {
    const reply = await app.inject({ method, url, headers, ...(body === undefined ? {} : { payload: body }) });
    return { status: reply.statusCode, text: reply.body, headers: reply.headers };
  };

/** Over the network, to a server of another process. */
export const doorAt =
  (address: string): Door =>
  async ({ method, url, body, headers }) => {
    const reply = await fetch(`${address}${url}`, { method, headers, ...(body === undefined ? {} : { body }) });
    return { status: reply.status, text: await reply.text(), headers: Object.fromEntries(reply.headers) };
  };

export function clientOf(door: Door, token: string): Client {
  const ask = async ({ headers, ...asked }: Asked): Promise<Answer> => {
    const told = await door({ ...asked, headers: { ...headers, cookie: `${SESSION_COOKIE}=${token}` } });
    const isJson = String(told.headers['content-type']).includes('json');
    const body = told.text === '' ? undefined : isJson ? JSON.parse(told.text) : told.text;
    return { status: told.status, body, headers: told.headers };
  };
  const write =
    (method: 'POST' | 'PATCH' | 'PUT' | 'DELETE') =>
    (url: string, body?: object | string, headers: Record<string, string> = {}) =>
      ask({
        method,
        url,
        body: typeof body === 'object' ? JSON.stringify(body) : body,
        headers: { 'idempotency-key': crypto.randomUUID(), ...typeOf(body), ...headers },
      });
  return {
    get: (url) => ask({ method: 'GET', url, body: undefined, headers: {} }),
    post: write('POST'),
    patch: write('PATCH'),
    put: write('PUT'),
    remove: (url, headers) => write('DELETE')(url, undefined, headers),
  };
}

function typeOf(body: object | string | undefined): Readonly<Record<string, string>> {
  if (body === undefined) return {};
  return { 'content-type': typeof body === 'string' ? 'text/csv' : 'application/json' };
}
