import { z } from 'zod';
import {
  Accepted,
  CountTray,
  Decline,
  Handover,
  HandoverPage,
  HandoverQuery,
  HandoverTray,
  OfferHandover,
} from '#contracts/custody.ts';
import { Id, IdParams, Made } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { acceptHandover, countTray, declineHandover, offerHandover, withdrawHandover } from './handover-service.ts';
import { getHandover, listHandovers } from './handover-view.ts';

export const handoverRoutes: Feature = async (app, platform) => {
  await app.register(readingRoutes, platform);
  await app.register(answeringRoutes, platform);
};

const readingRoutes: Feature = async (app, { db }) => {
  app.get(
    '/handovers',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'Handovers, latest offer first',
        querystring: HandoverQuery,
        response: { 200: HandoverPage, ...refusals(400, 401) },
      },
    },
    async (request) => listHandovers(db.sql, { viewerId: actorOf(request).id, query: request.query }),
  );

  app.get(
    '/handovers/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['custody'],
        summary: 'One handover',
        description: 'The count is blind: `given` is null until the receiver has counted that tray; the giver sees it.',
        params: IdParams,
        response: { 200: Handover, ...refusals(400, 401, 404) },
      },
    },
    async (request) => getHandover(db.sql, { id: request.params.id, viewerId: actorOf(request).id }),
  );
};

const answeringRoutes: Feature = async (app, { db }) => {
  app.post(
    '/jobs/:id/handovers',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Offer the engine, trays of it, or both',
        params: IdParams,
        body: OfferHandover,
        response: { 201: Made, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await offerHandover(act, request.params.id, request.body),
      })),
  );

  app.post(
    '/handovers/:id/trays/:trayId/count',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Count a tray blind (its receiver, up to three times)',
        description:
          'A difference opens its obligation at once, since the giver’s numbers show after the first count; a count again that agrees leaves it open.',
        params: IdParams.extend({ trayId: Id }),
        body: CountTray,
        response: { 200: HandoverTray, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) => {
      const { id: handoverId, trayId } = request.params;
      return write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await countTray(act, { handoverId, trayId }, request.body),
      }));
    },
  );

  app.post(
    '/handovers/:id/accept',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Accept what was counted',
        params: IdParams,
        response: { 200: Accepted, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await acceptHandover(act, request.params.id),
      })),
  );

  const Ended = z.strictObject({ id: Id }).meta({ id: 'HandoverEnded' });
  app.post(
    '/handovers/:id/decline',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Decline, with a reason',
        params: IdParams,
        body: Decline,
        response: { 200: Ended, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await declineHandover(act, { id: request.params.id, reason: request.body.reason });
        return { status: 200, body: { id: request.params.id } };
      }),
  );

  app.post(
    '/handovers/:id/withdraw',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['custody'],
        summary: 'Withdraw an offer of one’s own',
        params: IdParams,
        response: { 200: Ended, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await withdrawHandover(act, request.params.id);
        return { status: 200, body: { id: request.params.id } };
      }),
  );
};
