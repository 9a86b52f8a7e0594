import { HoldRule } from '#contracts/hold-rule.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { holdRule, setHoldRule } from './service.ts';

export const holdRoutes: Feature = async (app, { db }) => {
  app.get(
    '/stores/hold-rule',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'How long what is reserved for a job without a yes is held',
        response: { 200: HoldRule, ...refusals(401) },
      },
    },
    async () => holdRule(db.sql),
  );

  app.post(
    '/stores/hold-rule',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['stores'],
        summary: 'Set how long what is reserved for a job without a yes is held',
        description: 'Holds that run keep their day.',
        body: HoldRule,
        response: { 200: HoldRule, ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await setHoldRule(act, request.body) })),
  );
};
