import { z } from 'zod';
import { AddBin, BinKept, ChangeBin, OpeningKept, PartsKept } from '#contracts/stock-books.ts';
import { IdParams } from '#contracts/wire.ts';
import { acceptCsv, csvReply, sendCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { addBin, changeBin, checkOpening, importOpening, importParts, partsFile, stockFile } from './service.ts';

const fileLimit = 10_000_000;
const openingExample = 'part,bin,lot,quantity,value\r\nQL-9001,A-01,B-77,4000,40.00\r\n';

const importRoutes: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  app.post(
    '/parts/import',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['stores'],
        summary: 'Bring parts in from a CSV file',
        description:
          'A known number is changed, what a row leaves empty stays. All of the file is kept, or none of it.',
        consumes: ['text/csv'],
        body: z
          .string()
          .meta({ examples: ['number,name,unit,price,reorder_point\r\nQL-9001,Oil 10W-40,ml,0.01,4000\r\n'] }),
        response: { 201: PartsKept, ...refusals(400, 401, 403, 409, 413, 415, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await importParts(act, request.body) })),
  );
  app.post(
    '/stock-opening/check',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['stores'],
        summary: 'What an opening balance would bring in; nothing is kept',
        consumes: ['text/csv'],
        body: z.string().meta({ examples: [openingExample] }),
        response: { 200: OpeningKept, ...refusals(400, 401, 403, 413, 415, 422) },
      },
    },
    async (request) => checkOpening(db.sql, request.body),
  );
  app.post(
    '/stock-opening',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['stores'],
        summary: 'Open the stock books with a CSV file',
        description: 'One row a lot, for parts that have never moved; `value` is what the row is worth together.',
        consumes: ['text/csv'],
        body: z.string().meta({ examples: [openingExample] }),
        response: { 201: OpeningKept, ...refusals(400, 401, 403, 413, 415, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await importOpening(act, request.body) })),
  );
};

export const bookRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(importRoutes, platform);
  for (const { path, summary, right, name, text } of [
    { path: '/parts.csv', summary: 'All parts as a CSV file', right: 'money', name: 'parts', text: partsFile },
    {
      path: '/stock.csv',
      summary: 'All that lies in stock as a CSV file',
      right: 'money',
      name: 'stock',
      text: stockFile,
    },
  ] as const) {
    app.get(
      path,
      {
        config: { right },
        schema: { tags: ['stores'], summary, response: { 200: csvReply, ...refusals(401, 403) } },
      },
      async (_request, reply) => sendCsv(reply, name, await text(db.sql)),
    );
  }
  app.post(
    '/bins',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Put up a bin',
        body: AddBin,
        response: { 201: BinKept, ...refusals(400, 401, 403, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addBin(act, request.body) })),
  );
  app.post(
    '/bins/:id/change',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Close or open a bin, or move it in the walk',
        params: IdParams,
        body: ChangeBin,
        response: { 200: BinKept, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await changeBin(act, { id: request.params.id, ...request.body }),
      })),
  );
};
