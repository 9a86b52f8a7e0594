import { BadgeIssued, BadgeRevoked, BadgeRule, Badges, IssueBadge, RevokeBadge } from '#contracts/labels.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { badges, issueBadge, revokeBadge, setBadgeRule } from './service.ts';

export const badgesFeature: Feature = async (app, { db }) => {
  app.get(
    '/badges',
    {
      config: { right: 'set up' },
      schema: { tags: ['session'], summary: 'Who has a badge', response: { 200: Badges, ...refusals(401, 403) } },
    },
    async () => badges(db.sql),
  );

  app.post(
    '/badges',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['session'],
        summary: 'Issue a badge; the person’s earlier one is void',
        description:
          'The code comes in this reply and never again: only its hash is kept. Asked for again with the same Idempotency-Key, `code` is null.',
        body: IssueBadge,
        response: { 201: BadgeIssued, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) => {
      // The kept reply must not hold the code, so it is put in after the write.
      let code: string | null = null;
      const issued = await write(db.sql, { request, reply }, async (act) => {
        const { code: told, ...badge } = await issueBadge(act, request.body.personId);
        code = told;
        return { status: 201, body: badge };
      });
      reply.header('cache-control', 'no-store');
      return { ...issued, code };
    },
  );

  app.post(
    '/badges/:id/revoke',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['session'],
        summary: 'Take a badge back for good; its bearer is signed out',
        params: IdParams,
        body: RevokeBadge,
        response: { 200: BadgeRevoked, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await revokeBadge(act, request.params.id, request.body.reason),
      })),
  );

  app.put(
    '/badge-rule',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['session'],
        summary: 'Say whether a badge opens without a PIN',
        body: BadgeRule,
        response: { 200: BadgeRule, ...refusals(400, 401, 403) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await setBadgeRule(act, request.body.alone),
      })),
  );
};
