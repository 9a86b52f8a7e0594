import { DrawFinding, FindingSimulation, FindingSimulations } from '#contracts/finding-simulations.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { drawFinding, drawingsOf } from './service.ts';

export const simulationsRoutes: Feature = async (app, { db }) => {
  app.post(
    '/findings/:id/simulations',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['findings'],
        summary: 'Draw a kept finding many times by chance',
        description:
          'JCGM 101: its readings are moved by chance as far as its gauges, kept as they were when it was judged, leave them unsure. The seed is kept and determines the answer. The verdict rests on the closed form and stays.',
        params: IdParams,
        body: DrawFinding,
        response: { 201: FindingSimulation, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await drawFinding(act, { findingId: request.params.id, ...request.body }),
      })),
  );

  app.get(
    '/findings/:id/simulations',
    {
      config: { right: 'look' },
      schema: {
        tags: ['findings'],
        summary: 'What a finding came to when it was drawn by chance',
        params: IdParams,
        response: { 200: FindingSimulations, ...refusals(401, 404) },
      },
    },
    async (request) => drawingsOf(db.sql, request.params.id),
  );
};
