import { z } from 'zod';
import { StopPoints } from '#contracts/procedure-runs.ts';
import { ProcedurePage, ProcedureVersion, procedureKinds } from '#contracts/procedures.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { draftRoutes } from './draft-routes.ts';
import { runRoutes } from './run-routes.ts';
import { getVersion, listProcedures, listStopPoints } from './service.ts';

const ProcedureQuery = z.object({
  familyId: Id.optional(),
  kind: z.enum(procedureKinds).optional(),
  after: z.string().max(100).optional(),
  limit: z.coerce.number().int().min(1).max(200).optional(),
});

export const proceduresFeature: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(runRoutes, platform);
  await app.register(draftRoutes, platform);

  app.get(
    '/procedures',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'Procedures with their newest published version',
        querystring: ProcedureQuery,
        response: { 200: ProcedurePage, ...refusals(400, 401) },
      },
    },
    async (request) => listProcedures(db.sql, request.query),
  );

  app.get(
    '/procedure-versions/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'One version: its steps, cautions and expected pieces',
        params: IdParams,
        response: { 200: ProcedureVersion, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getVersion(db.sql, request.params.id),
  );

  app.get(
    '/stop-points',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'Steps in the shop that wait for a second person’s mark',
        response: { 200: StopPoints, ...refusals(401) },
      },
    },
    async () => ({ items: await listStopPoints(db.sql) }),
  );
};
