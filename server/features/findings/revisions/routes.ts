import { MovedToRevision, MoveToRevision, NewerRevision } from '#contracts/revision-moves.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { moveToRevision, newerRevision } from './service.ts';

export const revisionsRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/newer-revision',
    {
      config: { right: 'look' },
      schema: {
        tags: ['findings'],
        summary: 'What a newer revision of the job’s spec sheet would judge otherwise',
        params: IdParams,
        response: { 200: NewerRevision, ...refusals(401, 404) },
      },
    },
    async (request) => newerRevision(db.sql, request.params.id),
  );

  app.post(
    '/jobs/:id/revision',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['findings'],
        summary: 'Move a job to a newer revision of its spec sheet',
        description:
          'A revision in use never changes under a job: a lead moves it, with a reason. What the newer sheet judges otherwise is judged anew from the same readings; earlier findings stay as they were judged.',
        params: IdParams,
        body: MoveToRevision,
        response: { 201: MovedToRevision, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await moveToRevision(act, { jobId: request.params.id, ...request.body }),
      })),
  );
};
