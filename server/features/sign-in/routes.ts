import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { BadgeAnswer, BadgeSignIn, Session, SignIn, SignInChoices } from '#contracts/session.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { SESSION_COOKIE, SESSION_HOURS } from '#platform/identity/sessions.ts';
import { signInByBadge } from './badge-service.ts';
import { describeSession, signIn, signInChoices, signOut } from './service.ts';

export const signInFeature: Feature = async (app, { db, config }) => {
  const carry = (request: FastifyRequest, reply: FastifyReply, token: string) =>
    reply.setCookie(SESSION_COOKIE, token, {
      httpOnly: true,
      sameSite: 'strict',
      secure: (config.publicOrigin ?? '').startsWith('https:') || request.protocol === 'https',
      path: '/',
      maxAge: SESSION_HOURS * 3600,
    });

  app.get(
    '/sign-in',
    {
      config: { right: 'public' },
      schema: { tags: ['session'], summary: 'Who may sign in here', response: { 200: SignInChoices } },
    },
    async () => signInChoices(db.prisma),
  );

  app.post(
    '/session',
    {
      config: { right: 'public', rateLimit: { max: 60, timeWindow: '1 minute' } },
      schema: {
        tags: ['session'],
        summary: 'Sign in by name and PIN',
        description: 'Sets a session cookie (HttpOnly, SameSite=Strict). No Idempotency-Key is needed.',
        body: SignIn,
        response: { 200: Session, ...refusals(400, 401, 404, 429) },
      },
    },
    async (request, reply) => {
      const { token, session } = await signIn(db, request.body, request.ip);
      carry(request, reply, token);
      return session;
    },
  );

  app.post(
    '/session/badge',
    {
      config: { right: 'public', rateLimit: { max: 60, timeWindow: '1 minute' } },
      schema: {
        tags: ['session'],
        summary: 'Sign in by badge, and PIN unless the shop lets a badge open alone',
        description:
          'Without the PIN where one is wanted: who it is wanted of, and nobody is signed in. Send the code again with it. No Idempotency-Key is needed.',
        body: BadgeSignIn,
        response: { 200: BadgeAnswer, ...refusals(400, 401, 404, 429) },
      },
    },
    async (request, reply) => {
      const answer = await signInByBadge(db, request.body, request.ip);
      if ('pinOf' in answer) return { session: null, pinOf: answer.pinOf };
      carry(request, reply, answer.token);
      return { session: answer.session, pinOf: null };
    },
  );

  app.get(
    '/session',
    {
      config: { right: 'look' },
      schema: { tags: ['session'], summary: 'Who is signed in', response: { 200: Session, ...refusals(401) } },
    },
    async (request) => describeSession(db.prisma, actorOf(request)),
  );

  app.delete(
    '/session',
    {
      config: { right: 'look' },
      schema: {
        tags: ['session'],
        summary: 'Sign out; this session’s live streams end',
        response: { 204: z.null(), ...refusals(401) },
      },
    },
    async (request, reply) => {
      await signOut(db, actorOf(request));
      return reply.clearCookie(SESSION_COOKIE, { path: '/' }).code(204).send(null);
    },
  );
};
