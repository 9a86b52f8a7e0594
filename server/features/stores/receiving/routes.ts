import { z } from 'zod';
import { GoodsReceived, OrderPart, PurchasePage, PurchaseQuery, ReceiveGoods } from '#contracts/stock.ts';
import { Id } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { orderPart, purchases, receiveGoods } from './service.ts';

export const receivingRoutes: Feature = async (app, { db }) => {
  app.post(
    '/receipts',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Take goods in as a new lot',
        description: 'What a purchase line brings for a job is reserved for it first; who else is short is named.',
        body: ReceiveGoods,
        response: { 201: GoodsReceived, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await receiveGoods(act, request.body) })),
  );

  app.post(
    '/purchase-lines',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Write down what was ordered',
        body: OrderPart,
        response: { 201: z.strictObject({ id: Id }), ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await orderPart(act, request.body) })),
  );

  app.get(
    '/purchase-lines',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What was ordered, newest first',
        querystring: PurchaseQuery,
        response: { 200: PurchasePage, ...refusals(400, 401) },
      },
    },
    async (request) => purchases(db.sql, request.query),
  );
};
