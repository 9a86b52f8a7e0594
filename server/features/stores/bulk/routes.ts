import { ChangeParts, PartsChanged } from '#contracts/part-changes.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { changeParts, checkChange } from './service.ts';

export const bulkRoutes: Feature = async (app, { db }) => {
  const asked = { tags: ['stores'], body: ChangeParts };
  app.post(
    '/parts/changes/check',
    {
      config: { right: 'stores' },
      schema: {
        ...asked,
        summary: 'What a change of several parts would do to each; nothing is kept',
        response: { 200: PartsChanged, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async ({ body }) => checkChange(db.sql, body),
  );
  app.post(
    '/parts/changes',
    {
      config: { right: 'stores' },
      schema: {
        ...asked,
        summary: 'Change several parts in one act: all of them, or none',
        response: { 201: PartsChanged, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeParts(act, request.body) })),
  );
};
