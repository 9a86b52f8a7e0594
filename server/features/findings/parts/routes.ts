import { FitPart, FittedPart } from '#contracts/obligations.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { fitPart } from './service.ts';

export const partsRoutes: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/fitted-parts',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['findings'],
        summary: 'A part was renewed or machined',
        description: 'What sat in the place is taken out; limits follow the new size class, wear starts a new line.',
        params: IdParams,
        body: FitPart,
        response: { 201: FittedPart, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await fitPart(act, { jobId: request.params.id, ...request.body }),
      })),
  );
};
