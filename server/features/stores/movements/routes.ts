import { MoveStock, StockMoved } from '#contracts/stock.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { moveStock } from './service.ts';

export const movementRoutes: Feature = async (app, { db }) => {
  app.post(
    '/stock-movements',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Receive into, adjust, count, scrap from or transfer a lot',
        description: 'Less than is reserved releases reservations, latest promise first, into named shortages.',
        body: MoveStock,
        response: { 201: StockMoved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await moveStock(act, request.body) })),
  );
};
