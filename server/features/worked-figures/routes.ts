import { IdParams } from '#contracts/wire.ts';
import { KeepWorkedFigure, StrikeWorkedFigure, WorkedFigure, WorkedFigures } from '#contracts/worked-figures.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { keepFigure, strikeFigure, workedFigures } from './service.ts';

export const workedFiguresFeature: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/worked-figures',
    {
      config: { right: 'look' },
      schema: {
        tags: ['worked figures'],
        summary: 'What was reckoned and kept with the job, struck or not',
        params: IdParams,
        response: { 200: WorkedFigures, ...refusals(401, 404) },
      },
    },
    async (request) => workedFigures(db.sql, request.params.id),
  );

  app.post(
    '/jobs/:id/worked-figures',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['worked figures'],
        summary: 'Keep a calculation with the job, worked out here from what is given',
        params: IdParams,
        body: KeepWorkedFigure,
        response: { 201: WorkedFigure, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await keepFigure(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/worked-figures/:id/strike',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['worked figures'],
        summary: 'Strike a mistaken calculation, with a reason',
        params: IdParams,
        body: StrikeWorkedFigure,
        response: { 200: WorkedFigure, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await strikeFigure(act, request.params.id, request.body.reason),
      })),
  );
};
