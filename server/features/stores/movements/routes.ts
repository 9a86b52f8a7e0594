import { CorrectLotMarks, MoveStock, StockMoved } from '#contracts/stock.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { correctMarks } from './marks.ts';
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

  app.post(
    '/lots/:id/marks',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Put right what a lot bears: its grade, and of shims its measured thickness',
        description: 'Whom it was promised to by a rule that it meets no longer is short of it, by name.',
        params: IdParams,
        body: CorrectLotMarks,
        response: { 200: StockMoved, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await correctMarks(act, { lotId: request.params.id, ...request.body }),
      })),
  );
};
