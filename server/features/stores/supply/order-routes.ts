import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { may } from '#contracts/rights.ts';
import { LineFault, MarkOrder, Order, OrderPage, OrdersQuery, PlaceOrder, TellDate } from '#contracts/supply.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { tellDate } from './dating.ts';
import { orderCsv, orderText } from './order-papers.ts';
import { orderPdf } from './order-pdf.ts';
import { markOrder, placeOrder, tellFault } from './order-service.ts';
import { orderById, orders } from './orders.ts';

const seesMoney = (request: FastifyRequest) => may(actorOf(request).roles, 'money');
const OrderOfLine = z.strictObject({ orderId: Id.nullable() });

export const orderRoutes: Feature = async (app, { db }) => {
  app.get(
    '/purchase-orders',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Orders, newest first or as asked: of one vendor, open, sent, by words',
        querystring: OrdersQuery,
        response: { 200: OrderPage, ...refusals(400, 401) },
      },
    },
    async (request) => orders(db.sql, request.query),
  );
  app.post(
    '/purchase-orders',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Write an order, with its lines',
        body: PlaceOrder,
        response: { 201: Order, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { id } = await placeOrder(act, request.body);
        return { status: 201, body: await orderById(act.sql, id, seesMoney(request)) };
      }),
  );
  app.get(
    '/purchase-orders/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'One order: its lines and all that became of each',
        params: IdParams,
        response: { 200: Order, ...refusals(400, 401, 404) },
      },
    },
    async (request) => orderById(db.sql, request.params.id, seesMoney(request)),
  );
  for (const { form, type, text } of [
    { form: 'text', type: 'text/plain', text: orderText },
    { form: 'csv', type: 'text/csv', text: orderCsv },
  ] as const) {
    app.get(
      `/purchase-orders/:id/${form}`,
      {
        config: { right: 'look' },
        schema: {
          tags: ['stores'],
          summary: `An order as ${form === 'csv' ? 'a CSV file' : 'plain text'}`,
          params: IdParams,
          response: {
            200: { description: 'The order', content: { [type]: { schema: z.string() } } },
            ...refusals(400, 401, 404),
          },
        },
      },
      async (request, reply) =>
        reply
          .type(`${type}; charset=utf-8`)
          .serializer(String)
          .send(await text(db.sql, (request.params as { id: string }).id)),
    );
  }
  app.get(
    '/purchase-orders/:id/pdf',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'An order as a PDF for its vendor, on A4',
        description: 'The same order makes the same bytes. Prices and sums are on it for those who may see money.',
        params: IdParams,
        response: {
          200: { description: 'The order', content: { 'application/pdf': { schema: z.any() } } },
          ...refusals(400, 401, 404),
        },
      },
    },
    async (request, reply) => {
      const { name, pdf } = await orderPdf(db.sql, request.params.id, seesMoney(request));
      return reply
        .type('application/pdf')
        .header('content-disposition', `inline; filename="${name}"`)
        .header('cache-control', 'no-store')
        .serializer((body) => body as never)
        .send(pdf);
    },
  );
  app.post(
    '/purchase-orders/:id/marks',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'The order was sent, or confirmed',
        params: IdParams,
        body: MarkOrder,
        response: { 201: Order, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await markOrder(act, { id: request.params.id, ...request.body });
        return { status: 201, body: await orderById(act.sql, request.params.id, seesMoney(request)) };
      }),
  );
  app.post(
    '/purchase-lines/:id/dates',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'A date the vendor gave, the first or one that slipped',
        params: IdParams,
        body: TellDate,
        response: { 201: OrderOfLine, ...refusals(400, 401, 403, 404, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await tellDate(act, { id: request.params.id, ...request.body }),
      })),
  );
  app.post(
    '/purchase-lines/:id/faults',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'What came wrong, goes back to the vendor, or will not come',
        params: IdParams,
        body: LineFault,
        response: { 201: OrderOfLine, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await tellFault(act, { id: request.params.id, ...request.body }),
      })),
  );
};
