import { z } from 'zod';
import {
  AnswerStep,
  InterruptRun,
  Marked,
  MarkStep,
  ProcedureRuns,
  RedoStep,
  StartRun,
} from '#contracts/procedure-runs.ts';
import { Id, IdParams, Made } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { markStep, redoStep } from './mark-service.ts';
import { answerStep, interruptRun, resumeRun, startRun } from './run-service.ts';
import { listRuns } from './run-view.ts';

const StepParams = IdParams.extend({ stepId: Id });

const leaveRoutes: Feature = async (app, { db }) => {
  app.post(
    '/procedure-runs/:id/interrupt',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Say that the work was left, why, and what is loose',
        description: 'No step is marked until somebody has resumed it.',
        params: IdParams,
        body: InterruptRun,
        response: { 201: Made, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await interruptRun(act, { runId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/procedure-runs/:id/resume',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Go on where the work was left',
        description: 'By anybody who works at a bench. Answers the step it was left at.',
        params: IdParams,
        response: { 200: z.strictObject({ stepId: Id }), ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await resumeRun(act, request.params.id),
      })),
  );
};

const stepRoutes: Feature = async (app, { db }) => {
  app.post(
    '/procedure-runs/:id/steps/:stepId/answer',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Answer what a step asks',
        description:
          'Later steps may stand on the answer. A later answer takes the place of an earlier one, with a reason.',
        params: StepParams,
        body: AnswerStep,
        response: { 201: Made, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) => {
      const { id: runId, stepId } = request.params;
      return write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await answerStep(act, { runId, stepId, ...request.body }),
      }));
    },
  );

  app.post(
    '/procedure-runs/:id/steps/:stepId/again',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['procedures'],
        summary: 'Do a step again',
        description: 'Its marks begin anew; the old ones stay as they were.',
        params: StepParams,
        body: RedoStep,
        response: { 200: Marked, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) => {
      const { id: runId, stepId } = request.params;
      return write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await redoStep(act, { runId, stepId, ...request.body }),
      }));
    },
  );
};

export const runRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(leaveRoutes, platform);
  await app.register(stepRoutes, platform);

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
        description:
          'Done is refused while a piece of this or an earlier step is short and nobody has said why, while what it asks is not answered or not measured, and after a stop point that waits for a second person.',
        params: StepParams,
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
