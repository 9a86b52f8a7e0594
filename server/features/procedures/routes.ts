import { z } from 'zod';
import {
  Made,
  Marked,
  MarkStep,
  ProcedurePage,
  ProcedureRuns,
  ProcedureVersion,
  procedureKinds,
  StartRun,
  StopPoints,
} from '#contracts/procedures.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { listRuns } from './run-view.ts';
import { getVersion, listProcedures, listStopPoints, markStep, startRun } from './service.ts';

const ProcedureQuery = z.object({
  familyId: Id.optional(),
  kind: z.enum(procedureKinds).optional(),
  after: z.string().max(100).optional(),
  limit: z.coerce.number().int().min(1).max(200).optional(),
});

export const proceduresFeature: Feature = async (app, { db }) => {
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
    async (request) => getVersion(db.prisma, request.params.id),
  );

  app.get(
    '/jobs/:id/procedure-runs',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'The procedures that run on a job: marks, the next step, pieces short',
        params: IdParams,
        response: { 200: ProcedureRuns, ...refusals(400, 401) },
      },
    },
    async (request) => ({ items: await listRuns(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }) }),
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

  app.post(
    '/jobs/:id/procedure-runs',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Start a procedure on a job',
        params: IdParams,
        body: StartRun,
        response: { 201: Made, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await startRun(act, { jobId: request.params.id, versionId: request.body.versionId }),
      })),
  );

  app.post(
    '/procedure-runs/:id/steps/:stepId/mark',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Mark a step',
        description: 'Done is refused while a piece of this or an earlier step is short and nobody has said why.',
        params: IdParams.extend({ stepId: Id }),
        body: MarkStep,
        response: { 200: Marked, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) => {
      const { id: runId, stepId } = request.params;
      return write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await markStep(act, { runId, stepId, ...request.body }),
      }));
    },
  );
};
