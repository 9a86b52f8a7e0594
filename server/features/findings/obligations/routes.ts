import {
  Decide,
  Decided,
  Discharge,
  Obligation,
  Obligations,
  Outlook,
  OutlookQuery,
  RaiseObligation,
} from '#contracts/obligations.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { outlookOf } from './outlook.ts';
import { decide, dischargeByLead, obligationsOfJob, raiseObligation } from './service.ts';

export const obligationsRoutes: Feature = async (app, { db }) => {
  app.get(
    '/jobs/:id/obligations',
    {
      config: { right: 'look' },
      schema: {
        tags: ['obligations'],
        summary: 'What somebody must decide or do about a job',
        params: IdParams,
        response: { 200: Obligations, ...refusals(400, 401, 404) },
      },
    },
    async (request) => obligationsOfJob(db.sql, { jobId: request.params.id, viewerId: actorOf(request).id }),
  );

  app.get(
    '/obligations/:id/outlook',
    {
      config: { right: 'look' },
      schema: {
        tags: ['obligations'],
        summary: 'What the ways to settle it would come to',
        description:
          'Of a bore, a piston or their clearance: clearance with each size class of piston, metal to take off and left, and ring gaps after boring. Of a face of head or cylinder: compression ratio and squish after so much is cut and the base gasket is so much thicker, and what is left of the allowance.',
        params: IdParams,
        querystring: OutlookQuery,
        response: { 200: Outlook, ...refusals(400, 401, 404) },
      },
    },
    async (request) => outlookOf(db.sql, request.params.id, request.query),
  );

  app.post(
    '/jobs/:id/obligations',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['obligations'],
        summary: 'Raise an obligation by name',
        params: IdParams,
        body: RaiseObligation,
        response: { 201: Obligation, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await raiseObligation(act, { jobId: request.params.id, ...request.body }),
      })),
  );

  app.post(
    '/obligations/decide',
    {
      config: { right: 'decide' },
      schema: {
        tags: ['obligations'],
        summary: 'Decide what is done about one part',
        description:
          'Using it again discharges at once and needs a reason; past the limit, the lead says so. Everything else stays open until a re-measurement proves it. Parts named here are put on the job’s demand.',
        body: Decide,
        response: { 200: Decided, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await decide(act, request.body) })),
  );

  app.post(
    '/obligations/:id/discharge',
    {
      config: { right: 'lead' },
      schema: {
        tags: ['obligations'],
        summary: 'Say by name that it is done',
        params: IdParams,
        body: Discharge,
        response: { 200: Obligation, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await dischargeByLead(act, { id: request.params.id, reason: request.body.reason }),
      })),
  );
};
