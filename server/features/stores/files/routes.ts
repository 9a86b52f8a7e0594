import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { FileTaken } from '#contracts/stores-files.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { checkFile, takeFile, vendorPriceList, writtenFiles } from './service.ts';

const fileLimit = 10_000_000;
const csvReply = { description: 'Commas between the columns', content: { 'text/csv': { schema: z.any() } } };
const refused = refusals(400, 401, 403, 413, 415, 422);

const sendFile = (reply: FastifyReply, name: string, file: AsyncGenerator<string> | string) =>
  reply
    .type('text/csv; charset=utf-8')
    .header('content-disposition', `attachment; filename="${name}.csv"`)
    .send(Readable.from(typeof file === 'string' ? [file] : file));

const files = [
  {
    what: 'bins',
    example: 'code,walk_order,closed\r\nE-02,220,no\r\n',
    description: 'A known code is changed, what a row leaves empty stays.',
  },
  {
    what: 'kits',
    example: 'family,kit,part,quantity\r\nVT-450,Oil change,QL-9001,1400\r\n',
    description: 'One row a part of a kit. A kit that the file names gets the very parts its rows say; others stay.',
  },
  {
    what: 'parts',
    example: 'number,name,unit,price,reorder_point\r\nQL-9001,Oil 10W-40,ml,0.01,4000\r\n',
    description: 'A known number is changed, what a row leaves empty stays.',
  },
] as const;

/** Files have a content type of their own, which no other route takes. */
const importRoutes: Feature = async (app, { db }) => {
  app.addContentTypeParser(
    ['text/csv', 'text/plain'],
    { parseAs: 'string', bodyLimit: fileLimit },
    (_request, body, done) => done(null, body),
  );
  for (const { what, example, description } of files) {
    const asked = { tags: ['stores'], consumes: ['text/csv'], body: z.string().meta({ examples: [example] }) };
    app.post(
      `/${what}/import/check`,
      {
        config: { right: 'stores' },
        bodyLimit: fileLimit,
        schema: {
          ...asked,
          summary: `What a CSV file of ${what} would bring; nothing is kept`,
          response: { 200: FileTaken, ...refused },
        },
      },
      async (request) => checkFile(db.sql, actorOf(request), { what, text: request.body }),
    );
    // Parts have had theirs from the beginning, among the books.
    if (what === 'parts') continue;
    app.post(
      `/${what}/import`,
      {
        config: { right: 'stores' },
        bodyLimit: fileLimit,
        schema: {
          ...asked,
          summary: `Bring ${what} in from a CSV file`,
          description: `${description} All of the file is kept, or none of it.`,
          response: { 201: FileTaken, ...refused },
        },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 201,
          body: await takeFile(act, what, request.body),
        })),
    );
  }
};

export const fileRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(importRoutes, platform);
  for (const { path, name, right, summary } of [
    { path: '/bins.csv', name: 'bins', right: 'look', summary: 'All bins as a CSV file' },
    { path: '/kits.csv', name: 'kits', right: 'look', summary: 'All kits as a CSV file' },
    { path: '/stores/short.csv', name: 'short', right: 'look', summary: 'What jobs are short of, as a CSV file' },
    { path: '/vendor-prices.csv', name: 'prices', right: 'money', summary: 'Every price told, as a CSV file' },
    {
      path: '/purchase-orders.csv',
      name: 'orders',
      right: 'money',
      summary: 'All orders, line by line, as a CSV file',
    },
  ] as const) {
    app.get(
      path,
      {
        config: { right },
        schema: { tags: ['stores'], summary, response: { 200: csvReply, ...refusals(401, 403) } },
      },
      async (_request, reply) => sendFile(reply, name, await writtenFiles[name](db.sql)),
    );
  }
  app.get(
    '/vendors/:id/price-list.csv',
    {
      config: { right: 'money' },
      schema: {
        tags: ['stores'],
        summary: 'What one vendor asks, in the columns of a price list',
        params: IdParams,
        response: { 200: csvReply, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request, reply) => sendFile(reply, 'price-list', await vendorPriceList(db.sql, request.params.id)),
  );
};
