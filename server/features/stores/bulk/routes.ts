import { BinsChanged, ChangeBins } from '#contracts/bin-changes.ts';
import { ChangeParts, PartsChanged } from '#contracts/part-changes.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { changeBins, checkBins } from './bins-service.ts';
import { changeParts, checkChange } from './service.ts';

export const bulkRoutes: Feature = async (app, platform) => {
  await app.register(partRoutes, platform);
  await app.register(binRoutes, platform);
};

const binRoutes: Feature = async (app, { db }) => {
  const asked = { tags: ['stores'], body: ChangeBins };
  app.post(
    '/bins/changes/check',
    {
      config: { right: 'stores' },
      schema: {
        ...asked,
        summary: 'What a change of several bins would do to each; nothing is kept',
        response: { 200: BinsChanged, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async ({ body }) => checkBins(db.sql, body),
  );
  app.post(
    '/bins/changes',
    {
      config: { right: 'stores' },
      schema: {
        ...asked,
        summary: 'Change several bins in one act: all of them, or none',
        response: { 201: BinsChanged, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeBins(act, request.body) })),
  );
};

const partRoutes: Feature = async (app, { db }) => {
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
