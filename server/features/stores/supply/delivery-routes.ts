import { DeliveryTaken, ExpectedGoods, ExpectedQuery, TakeDelivery } from '#contracts/deliveries.ts';
import { may } from '#contracts/rights.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { expectedGoods, takeDelivery } from './delivery-service.ts';

export const deliveryRoutes: Feature = async (app, { db }) => {
  app.get(
    '/stores/expected',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Of whom something is still to come, and what of one vendor',
        querystring: ExpectedQuery,
        response: { 200: ExpectedGoods, ...refusals(400, 401) },
      },
    },
    async (request) => expectedGoods(db.sql, request.query.vendorId, may(actorOf(request).roles, 'money')),
  );
  app.post(
    '/deliveries',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Take in what one delivery brought, on several lines',
        description:
          'All of it or none. Freight joins the cost of what is taken in, by its worth; what came wrong or damaged stays out of stock and its line open.',
        body: TakeDelivery,
        response: { 201: DeliveryTaken, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await takeDelivery(act, request.body, may(actorOf(request).roles, 'money')),
      })),
  );
};
