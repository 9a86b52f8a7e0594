import { z } from 'zod';
import { FileTaken } from '#contracts/stores-files.ts';
import { IdParams } from '#contracts/wire.ts';
import { acceptCsv, csvReply, sendCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { checkFile, partLife, takeFile, vendorPriceList, writtenFiles } from './service.ts';

const fileLimit = 10_000_000;
const refused = refusals(400, 401, 403, 409, 413, 415, 422);

/** One row of each, as an example. */
const examples = {
  bins: 'code,walk_order,closed\r\nE-02,220,no\r\n',
  kits: 'family,kit,part,quantity\r\nVT-450,Oil change,QL-9001,1400\r\n',
  days: 'order,number,promised_on,said\r\n1204,QL-9001,2026-12-04,waits for the foundry\r\n',
  vendors: 'name,trade,contact\r\nSaltmere Plating,plating,weekdays before four\r\n',
  parts: 'number,name,unit,price,reorder_point\r\nQL-9001,Oil 10W-40,ml,0.01,4000\r\n',
} as const;
const asked = (what: keyof typeof examples) => ({
  tags: ['stores'],
  consumes: ['text/csv'],
  body: z.string().meta({ examples: [examples[what]] }),
});

/** What becomes of what is known already. Parts have had their import from the beginning, among the books. */
const taken = {
  bins: 'A known code is changed, what a row leaves empty stays.',
  days: 'A line is named by its order and part, or by its id. An empty day stays, `-` is none any more.',
  vendors: 'A known name is changed, what a row leaves empty stays.',
  kits: 'One row a part of a kit. A kit that the file names gets the very parts its rows say; others stay.',
} as const;

const named = {
  bins: 'bins',
  kits: 'kits',
  parts: 'parts',
  days: 'days of purchase lines',
  vendors: 'vendors',
} as const;
/** Below what each is brought in. */
const above = { bins: '', kits: '', parts: '', days: '/purchase-lines', vendors: '' } as const;
/** Vendors are set up, everything else is brought in by who keeps the stores. */
const rightFor = { bins: 'stores', kits: 'stores', parts: 'stores', days: 'stores', vendors: 'set up' } as const;

const importRoutes: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  for (const what of ['bins', 'kits', 'parts', 'days', 'vendors'] as const) {
    app.post(
      `${above[what]}/${what}/import/check`,
      {
        config: { right: rightFor[what] },
        bodyLimit: fileLimit,
        schema: {
          ...asked(what),
          summary: `What a CSV file of ${named[what]} would bring; nothing is kept`,
          response: { 200: FileTaken, ...refused },
        },
      },
      async (request) => checkFile(db.sql, actorOf(request), { what, text: request.body }),
    );
  }
  for (const what of ['bins', 'kits', 'days', 'vendors'] as const) {
    app.post(
      `${above[what]}/${what}/import`,
      {
        config: { right: rightFor[what] },
        bodyLimit: fileLimit,
        schema: {
          ...asked(what),
          summary: `Bring ${named[what]} in from a CSV file`,
          description: `${taken[what]} All of the file is kept, or none of it.`,
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
    {
      path: '/stores/pick-walk.csv',
      name: 'walk',
      right: 'look',
      summary: 'What to pick now, bin after bin, as a CSV file',
    },
    { path: '/stores/expected.csv', name: 'expected', right: 'look', summary: 'What is still to come, as a CSV file' },
    { path: '/stores/to-buy.csv', name: 'to-buy', right: 'look', summary: 'All that should be bought, as a CSV file' },
    { path: '/vendors.csv', name: 'vendors', right: 'look', summary: 'All vendors as a CSV file' },
    {
      path: '/count-schedule.csv',
      name: 'schedule',
      right: 'look',
      summary: 'When each bin is to be counted, as a CSV file',
    },
    { path: '/stores/short.csv', name: 'short', right: 'look', summary: 'What jobs are short of, as a CSV file' },
    {
      path: '/stores/wanted.csv',
      name: 'wanted',
      right: 'look',
      summary: 'What the jobs in the shop want of stores, line by line, as a CSV file',
    },
    { path: '/cores.csv', name: 'cores', right: 'money', summary: 'Worn pieces owed to vendors, as a CSV file' },
    { path: '/stock-movements.csv', name: 'movements', right: 'money', summary: 'Every movement, as a CSV file' },
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
      async (_request, reply) => sendCsv(reply, name, await writtenFiles[name](db.sql)),
    );
  }
  app.get(
    '/parts/:id/movements.csv',
    {
      config: { right: 'money' },
      schema: {
        tags: ['stores'],
        summary: 'All that ever moved of one part, as a CSV file',
        params: IdParams,
        response: { 200: csvReply, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request, reply) => sendCsv(reply, 'movements', await partLife(db.sql, request.params.id)),
  );
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
    async (request, reply) => sendCsv(reply, 'price-list', await vendorPriceList(db.sql, request.params.id)),
  );
};
