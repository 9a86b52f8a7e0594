import { CloseStudy, KeyStudy, StartStudy, Studies, StudiesQuery, Study } from '#contracts/gauge-studies.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { closeStudy, keyStudy, startStudy, studies, study } from './study-service.ts';

/** Studies of repeatability and reproducibility on the shop's own gauges. */
export const gaugeStudies: Feature = async (app, { db }) => {
  app.get(
    '/gauge-studies',
    {
      config: { right: 'look' },
      schema: {
        tags: ['instruments'],
        summary: 'Gauge studies, newest first',
        querystring: StudiesQuery,
        response: { 200: Studies, ...refusals(400, 401) },
      },
    },
    async (request) => studies(db.sql, request.query.instrument),
  );

  app.get(
    '/gauge-studies/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['instruments'],
        summary: 'One gauge study',
        description: 'Values and result are told when every part was read by every person in every trial.',
        params: IdParams,
        response: { 200: Study, ...refusals(400, 401, 404) },
      },
    },
    async (request) => study(db.sql, request.params.id),
  );

  app.post(
    '/gauge-studies',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['instruments'],
        summary: 'Start a gauge study',
        body: StartStudy,
        response: { 201: Study, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await startStudy(act, request.body) })),
  );

  app.post(
    '/gauge-studies/:id/readings',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['instruments'],
        summary: 'Key readings of a gauge study, all or none',
        params: IdParams,
        body: KeyStudy,
        response: { 200: Study, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await keyStudy(act, { id: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/gauge-studies/:id/close',
    {
      // What the register says of an instrument is the lead's to set.
      config: { right: 'set up' },
      schema: {
        tags: ['instruments'],
        summary: 'Close a gauge study, and take its repeatability over or not',
        params: IdParams,
        body: CloseStudy,
        response: { 200: Study, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await closeStudy(act, { id: request.params.id, ...request.body }),
      })),
  );
};
