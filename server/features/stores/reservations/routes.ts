import { AskToReserve, JobDemands, ReleaseReserved, Reserved } from '#contracts/demands.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { demandsOfJob } from '../demands/service.ts';
import { release, reserve } from './service.ts';

export const reservationRoutes: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/reservations',
    {
      config: { right: 'ask for parts' },
      schema: {
        tags: ['stores'],
        summary: 'Ask to reserve what a job wants',
        description: 'Never refused for want of stock: what is missing is answered, and kept, as named shortages.',
        params: IdParams,
        body: AskToReserve,
        response: { 200: Reserved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await reserve(act, { jobId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/demand-lines/:id/release',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Give reserved pieces back to stock',
        params: IdParams,
        body: ReleaseReserved,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await release(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );
};
