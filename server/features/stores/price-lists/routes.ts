import { z } from 'zod';
import { PriceListQuery, PriceListTaken } from '#contracts/price-lists.ts';
import { IdParams } from '#contracts/wire.ts';
import { acceptCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { checkPriceList, takePriceList } from './service.ts';

const fileLimit = 10_000_000;
const example = 'their_number,our_number,name,price,pack,from\r\nV-100,QL-9001,Oil 10W-40,11.80,1000,2026-11-01\r\n';

export const priceListRoutes: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  const asked = {
    tags: ['stores'],
    consumes: ['text/csv'],
    params: IdParams,
    querystring: PriceListQuery,
    body: z.string().meta({ examples: [example] }),
  };
  app.post(
    '/vendors/:id/price-list/check',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        ...asked,
        summary: 'What a vendor’s price list would bring; nothing is kept',
        response: { 200: PriceListTaken, ...refusals(400, 401, 403, 404, 413, 415, 422) },
      },
    },
    async ({ params, query, body }) => checkPriceList(db.sql, { ...query, vendorId: params.id, text: body }),
  );
  app.post(
    '/vendors/:id/price-list',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        ...asked,
        summary: 'Take a vendor’s price list: all of it, or none',
        description:
          'A row is of the part with our number; without one, of the part that this vendor called so before, or that we call so too. `price` is that of a pack, `pack` how many of the part’s unit it has; left empty: as this vendor sold it before, else one. Prices stay beside the earlier ones, each from its day on.',
        response: { 201: PriceListTaken, ...refusals(400, 401, 403, 404, 413, 415, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await takePriceList(act, { ...request.query, vendorId: request.params.id, text: request.body }),
      })),
  );
};
