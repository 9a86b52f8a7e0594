import { AddDemands, CancelDemand, JobDemands, SetLotRule } from '#contracts/demands.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { setLotRule } from './lot-rule-service.ts';
import { addDemands, cancelDemand, demandsOfJob } from './service.ts';

export const demandRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/demands',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What a job wants from stores',
        params: IdParams,
        response: { 200: JobDemands, ...refusals(400, 401, 404) },
      },
    },
    async (request) => demandsOfJob(db.sql, request.params.id),
  );

  app.post(
    '/jobs/:id/demands',
    {
      config: { right: 'ask for parts' },
      schema: {
        tags: ['stores'],
        summary: 'Add a kit or single parts to what a job wants',
        params: IdParams,
        body: AddDemands,
        response: { 201: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await addDemands(act, { jobId: request.params.id, what: request.body }),
      })),
  );

  app.post(
    '/demand-lines/:id/cancel',
    {
      config: { right: 'ask for parts' },
      schema: {
        tags: ['stores'],
        summary: 'Take pieces off what a job wants',
        params: IdParams,
        body: CancelDemand,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await cancelDemand(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );

  app.post(
    '/demand-lines/:id/lot-rule',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Say by which rule the lots of a line are chosen, and why',
        description: 'What is reserved out of lots that do not meet it goes back to stock, is short, and served anew.',
        params: IdParams,
        body: SetLotRule,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await setLotRule(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );
};
