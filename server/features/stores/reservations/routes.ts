import {
  AskToReserve,
  JobDemands,
  ReassignReserved,
  ReleaseReserved,
  Reserved,
  ReserveOfLot,
} from '#contracts/demands.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { demandsOfJob } from '../demands/service.ts';
import { reserveOfLot } from './chosen-lot.ts';
import { afterWhatRanOut } from './lapsing.ts';
import { reassign } from './reassigning.ts';
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
      afterWhatRanOut(db.sql, (asTheyStand) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await reserve(act, { jobId: request.params.id, ...request.body, asTheyStand }),
        })),
      ),
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

  app.post(
    '/demand-lines/:id/reassign',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Give reserved pieces of one job to another that wants the part',
        description: 'What the first job gives up is short there, and is served again in its turn. Both jobs are told.',
        params: IdParams,
        body: ReassignReserved,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await reassign(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );

  app.post(
    '/demand-lines/:id/reserve-of-lot',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Reserve pieces out of a lot that was chosen by hand',
        description: 'Used pieces are reserved in this way alone: by somebody who read what was measured on them.',
        params: IdParams,
        body: ReserveOfLot,
        response: { 200: JobDemands, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { jobId } = await reserveOfLot(act, { demandLineId: request.params.id, ...request.body });
        return { status: 200, body: await demandsOfJob(act.sql, jobId) };
      }),
  );
};
