import { IssueParts, JobDemands, ReturnParts } from '#contracts/demands.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { demandsOfJob } from '../demands/service.ts';
import { takeBackUnused } from './returning.ts';
import { issue } from './service.ts';

export const issuingRoutes: Feature = async (app, { db }) => {
  app.post(
    '/demand-lines/:id/issue',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Hand reserved pieces out to their job',
        params: IdParams,
        body: IssueParts,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await issue(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );

  app.post(
    '/demand-lines/:id/return',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Take unused pieces back',
        params: IdParams,
        body: ReturnParts,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await takeBackUnused(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );
};
