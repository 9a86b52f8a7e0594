import '@fastify/cookie';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Right } from '#contracts/rights.ts';
import { may } from '#contracts/rights.ts';
import type { Actor } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { findActor, SESSION_COOKIE } from '#platform/identity/sessions.ts';
import { ProblemError } from '#platform/problem.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The right this route asks for, or 'public'. A route under /api without it does not register. */
    right?: Right | 'public';
  }
  interface FastifyRequest {
    /** Who is signed in; undefined on public routes without a session. */
    actor: Actor | undefined;
  }
}

/** The signed-in person of a guarded route. */
export function actorOf(request: FastifyRequest): Actor {
  if (request.actor === undefined)
    throw new ProblemError('not-signed-in', 'Sign in with your name and PIN, then try again.');
  return request.actor;
}

function refuseForeignOrigin(request: FastifyRequest, publicOrigin: string | undefined): void {
  const { origin, host } = request.headers;
  if (request.method === 'GET' || request.method === 'HEAD' || origin === undefined) return;
  const ours = publicOrigin ?? `${request.protocol}://${host ?? ''}`;
  if (origin !== ours) {
    throw new ProblemError('foreign-origin', `This server takes writes from ${ours} only, not from ${origin}.`);
  }
}

/** Checks origin, session and right on every route under /api, before its body is read. */
export function installGuard(
  app: FastifyInstance,
  { sql, publicOrigin }: { sql: SqlPool; publicOrigin: string | undefined },
): void {
  app.decorateRequest('actor', undefined);
  app.addHook('onRoute', (route) => {
    if (route.url.startsWith('/api/') && route.config?.right === undefined && !route.url.startsWith('/api/docs')) {
      throw new Error(`${String(route.method)} ${route.url} names no right`);
    }
  });
  app.addHook('onRequest', async (request) => {
    const right = request.routeOptions.config.right;
    if (right === undefined) return;
    refuseForeignOrigin(request, publicOrigin);
    const token = request.cookies[SESSION_COOKIE];
    if (token !== undefined) request.actor = await findActor(sql, token);
    if (right === 'public') return;
    const actor = actorOf(request);
    if (!may(actor.roles, right)) {
      throw new ProblemError(
        'not-allowed',
        `${actor.name} is ${actor.roles.join(' and ')}; this needs the right to "${right}". Ask somebody who has it.`,
      );
    }
  });
}
