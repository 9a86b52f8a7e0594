import { z } from 'zod';
import { AmendJob, AssignBay, Job, TakeIn } from '#contracts/intake.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { etagOf, versionAsked, write } from '#platform/http/write.ts';
import { amendJob, assignBay, getJob, takeIn } from './service.ts';

const TakenIn = z.strictObject({ id: Id, number: z.int(), engineId: Id }).meta({ id: 'TakenIn' });

export const intakeFeature: Feature = async (app, { db }) => {
  app.post(
    '/jobs',
    {
      config: { right: 'counter' },
      schema: {
        tags: ['jobs'],
        summary: 'Take an engine in',
        body: TakeIn,
        response: { 201: TakenIn, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await takeIn(act, request.body) })),
  );

  app.get(
    '/jobs/:id',
    {
      config: { right: 'look' },
      schema: { tags: ['jobs'], summary: 'One job', params: IdParams, response: { 200: Job, ...refusals(401, 404) } },
    },
    async (request, reply) => {
      const job = await getJob(db.prisma, request.params.id);
      reply.header('etag', etagOf(job.version));
      return job;
    },
  );

  app.patch(
    '/jobs/:id',
    {
      config: { right: 'counter' },
      schema: {
        tags: ['jobs'],
        summary: 'Amend complaint or wishes',
        description: 'Needs If-Match with the ETag of the job as it was read.',
        params: IdParams,
        body: AmendJob,
        response: { 200: z.strictObject({ version: z.int() }), ...refusals(400, 401, 403, 404, 409, 412, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, version: versionAsked(request), change: request.body };
      return write(db.sql, { request, reply }, async (act) => {
        const version = await amendJob(act, asked);
        return { status: 200, body: { version }, etag: etagOf(version) };
      });
    },
  );

  app.post(
    '/jobs/:id/assigned-bay',
    {
      config: { right: 'counter' },
      schema: {
        tags: ['jobs'],
        summary: 'Plan the next bay (null: none)',
        params: IdParams,
        body: AssignBay,
        response: { 200: AssignBay, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await assignBay(act, { id: request.params.id, ...request.body });
        return { status: 200, body: { bayId: request.body.bayId } };
      }),
  );
};
