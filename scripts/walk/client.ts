import type { Problem } from '#contracts/problems.ts';
import type { Session, SignInChoices } from '#contracts/session.ts';

/** A refusal by the server, as the problem details say it. */
export class Refused extends Error {
  override readonly name = 'Refused';
  readonly problem: Problem;

  constructor(problem: Problem, what: string) {
    super(`${what}: ${problem.status} ${problem.title}. ${problem.detail}`);
    this.problem = problem;
  }
}

interface PutAs {
  readonly ifMatch: string;
  readonly csv?: string;
  readonly method?: 'PUT' | 'PATCH' | 'POST' | 'DELETE';
}

/** Somebody signed in: reads, and writes that each carry an idempotency key of their own. */
export interface Person {
  readonly id: string;
  readonly name: string;
  readonly get: <Reply>(path: string) => Promise<Reply>;
  readonly post: <Reply>(
    path: string,
    body?: unknown,
    more?: { readonly key?: string; readonly csv?: string },
  ) => Promise<Reply>;
  /** Sends a picture or a document. */
  readonly sendFile: <Reply>(path: string, bytes: Buffer, type: string) => Promise<Reply>;
  /** Changes what was read, as it was read: `etag` is the reply's. */
  /** Puts a body in the place of what was read, or acts on it by another method; a text is a CSV file. */
  readonly put: <Reply>(path: string, body: unknown, as: PutAs) => Promise<Reply>;
  readonly amend: <Reply>(path: string, change: unknown, etag?: string) => Promise<Reply>;
}

async function reply<Reply>(response: Response, what: string): Promise<Reply> {
  if (response.ok) return (response.status === 204 ? undefined : await response.json()) as Reply;
  throw new Refused((await response.json()) as Problem, what);
}

async function ask(base: string, path: string, init?: RequestInit): Promise<Response> {
  try {
    return await fetch(`${base}/api${path}`, init);
  } catch {
    throw new Error(
      `No answer from ${base}. Start the shop with \`npm start\`, or give its address: npm run walk -- http://…`,
    );
  }
}

/** Who may sign in at the server. */
export async function readPeople(base: string): Promise<SignInChoices> {
  return reply(await ask(base, '/sign-in'), 'GET /sign-in');
}

/** Signs a person in; the session lives in a cookie, as in a browser. */
export async function signIn(
  base: string,
  person: { readonly id: string; readonly name: string },
  pin: string,
): Promise<Person> {
  const response = await ask(base, '/session', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ personId: person.id, pin }),
  });
  const session = await reply<Session>(response.clone(), `sign in ${person.name}`);
  const cookie = response.headers.get('set-cookie')?.split(';')[0] ?? '';
  return {
    ...session.person,
    get: async (path) => reply(await ask(base, path, { headers: { cookie } }), `GET ${path}`),
    post: async (path, body = {}, { key = crypto.randomUUID(), csv } = {}) => {
      const headers = {
        cookie,
        'idempotency-key': key,
        'content-type': csv === undefined ? 'application/json' : 'text/csv',
      };
      const sent = await ask(base, path, { method: 'POST', headers, body: csv ?? JSON.stringify(body) });
      return reply(sent, `POST ${path}`);
    },
    sendFile: async (path, bytes, type) => {
      const headers = { cookie, 'idempotency-key': crypto.randomUUID(), 'content-type': type };
      const sent = await ask(base, path, { method: 'POST', headers, body: new Uint8Array(bytes) });
      return reply(sent, `POST ${path}`);
    },
    put: async (path, body, { ifMatch, csv, method = 'PUT' }) => {
      const sent = csv ?? (body === undefined ? undefined : JSON.stringify(body));
      const headers = {
        cookie,
        'idempotency-key': crypto.randomUUID(),
        'if-match': ifMatch,
        ...(sent === undefined ? {} : { 'content-type': csv === undefined ? 'application/json' : 'text/csv' }),
      };
      return reply(
        await ask(base, path, { method, headers, ...(sent === undefined ? {} : { body: sent }) }),
        `${method} ${path}`,
      );
    },
    amend: async (path, change, etag) => {
      const headers = {
        cookie,
        'idempotency-key': crypto.randomUUID(),
        'content-type': 'application/json',
        ...(etag === undefined ? {} : { 'if-match': etag }),
      };
      return reply(await ask(base, path, { method: 'PATCH', headers, body: JSON.stringify(change) }), `PATCH ${path}`);
    },
  };
}

/** Asks for what must be refused, and returns the refusal; an acceptance is the failure. */
export async function refusalOf(asking: Promise<unknown>): Promise<Problem> {
  try {
    await asking;
  } catch (error) {
    if (error instanceof Refused) return error.problem;
    throw error;
  }
  throw new Error('The server accepted what it should have refused.');
}
