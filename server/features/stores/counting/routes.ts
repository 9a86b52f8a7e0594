import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  CountAccuracy,
  CountDecided,
  CountPage,
  CountRules,
  CountSchedule,
  CountSheet,
  CountsQuery,
  DecideCount,
  GiveUpCount,
  HandedIn,
  HandIn,
  KeyCount,
  KeyFound,
  OpenCount,
  ScheduleQuery,
  SetCountRule,
} from '#contracts/counts.ts';
import { may } from '#contracts/rights.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { countFileRoutes } from './file-routes.ts';
import { countAccuracy, countSheet, countSheets, countsFile, linesToRecount, type Reader } from './reading.ts';
import { countRules, countSchedule, setCountRule } from './schedule.ts';
import { beginRecount, giveUpCount, keyCount, keyFound, openCount } from './service.ts';
import { decideCount, handIn } from './settling.ts';

const seesMoney = (request: FastifyRequest) => may(actorOf(request).roles, 'money');
const readerOf = (request: FastifyRequest): Reader => ({ id: actorOf(request).id, seesMoney: seesMoney(request) });

export const countingRoutes: Feature = async (app, platform) => {
  await app.register(scheduleRoutes, platform);
  await app.register(sheetRoutes, platform);
  await app.register(roundRoutes, platform);
  await app.register(recountRoutes, platform);
  await app.register(countFileRoutes, platform);
};

const scheduleRoutes: Feature = async (app, { db }) => {
  app.get(
    '/count-schedule',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Which bins to count next, and why: classes by value and movement',
        querystring: ScheduleQuery,
        response: { 200: CountSchedule, ...refusals(400, 401) },
      },
    },
    async (request) => countSchedule(db.sql, seesMoney(request), request.query.limit),
  );
  app.get(
    '/count-rules',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Tolerance and interval of each class',
        response: { 200: CountRules, ...refusals(401) },
      },
    },
    async () => countRules(db.sql),
  );
  app.post(
    '/count-rules',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['stores'],
        summary: 'Set tolerance and interval of a class',
        body: SetCountRule,
        response: { 201: CountRules, ...refusals(400, 401, 403) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await setCountRule(act, request.body) })),
  );
  app.get(
    '/count-accuracy',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'How many lines were right, and what was adjusted, by month',
        response: { 200: CountAccuracy, ...refusals(401) },
      },
    },
    async (request) => countAccuracy(db.sql, seesMoney(request)),
  );
  app.get(
    '/counts.csv',
    {
      config: { right: 'money' },
      schema: {
        tags: ['stores'],
        summary: 'Every line that a count settled, as a CSV file',
        response: {
          200: { description: 'Commas between the columns', content: { 'text/csv': { schema: z.string() } } },
          ...refusals(401, 403),
        },
      },
    },
    async (_request, reply) =>
      reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', 'attachment; filename="counts.csv"')
        .serializer(String)
        .send(await countsFile(db.sql)),
  );
};

const sheetRoutes: Feature = async (app, { db }) => {
  app.get(
    '/count-sheets',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'Count sheets, newest first',
        querystring: CountsQuery,
        response: { 200: CountPage, ...refusals(400, 401) },
      },
    },
    async (request) => countSheets(db.sql, request.query),
  );
  app.post(
    '/count-sheets',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Begin to count bins',
        description:
          'A bin is on one sheet at a time. Its lines are the lots that lie there by the books, without numbers.',
        body: OpenCount,
        response: { 201: CountSheet, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { id } = await openCount(act, request.body);
        return { status: 201, body: await countSheet(act.sql, id, readerOf(request)) };
      }),
  );
  app.get(
    '/count-sheets/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'One count sheet; what the books say only where the blind counts are over',
        params: IdParams,
        response: { 200: CountSheet, ...refusals(400, 401, 404) },
      },
    },
    async (request) => countSheet(db.sql, request.params.id, readerOf(request)),
  );
  app.post(
    '/count-sheets/:id/give-up',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'End a sheet without settling what is open on it',
        params: IdParams,
        body: GiveUpCount,
        response: { 201: CountSheet, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await giveUpCount(act, request.params.id, request.body.reason);
        return { status: 201, body: await countSheet(act.sql, request.params.id, readerOf(request)) };
      }),
  );
};

const roundRoutes: Feature = async (app, { db }) => {
  app.post(
    '/count-sheets/:id/counts',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Key the count of a line; the later one of a round holds',
        description: 'It is compared with the ledger of the moment at which it was counted (Happened-At, where sent).',
        params: IdParams,
        body: KeyCount,
        response: { 201: CountSheet, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await keyCount(act, { sheetId: request.params.id, ...request.body });
        return { status: 201, body: await countSheet(act.sql, request.params.id, readerOf(request)) };
      }),
  );
  app.post(
    '/count-sheets/:id/found',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Add pieces that lie in the bin and are not on the sheet',
        params: IdParams,
        body: KeyFound,
        response: { 201: CountSheet, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await keyFound(act, { sheetId: request.params.id, ...request.body });
        return { status: 201, body: await countSheet(act.sql, request.params.id, readerOf(request)) };
      }),
  );
  app.post(
    '/count-sheets/:id/hand-in',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Hand a round in',
        description:
          'What agrees or is within tolerance is settled at once; the rest is counted again, blind, or after a recount decided. Less than is reserved releases reservations, latest promise first, into named shortages.',
        params: IdParams,
        body: HandIn,
        response: { 201: HandedIn, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { shortages, ...counts } = await handIn(act, request.params.id, request.body.round);
        const sheet = await countSheet(act.sql, request.params.id, readerOf(request));
        return { status: 201, body: { ...counts, shortages: [...shortages], sheet } };
      }),
  );
};

const recountRoutes: Feature = async (app, { db }) => {
  app.post(
    '/count-sheets/:id/recount',
    {
      config: { right: 'stores' },
      schema: {
        tags: ['stores'],
        summary: 'Begin to count again what was off, blind; best done by somebody else',
        params: IdParams,
        body: z.strictObject({}).meta({ examples: [{}] }),
        response: { 201: CountSheet, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        await beginRecount(act, request.params.id, await linesToRecount(act.sql, request.params.id));
        return { status: 201, body: await countSheet(act.sql, request.params.id, readerOf(request)) };
      }),
  );
  app.post(
    '/count-sheets/:id/decisions',
    {
      config: { right: 'settle counts' },
      schema: {
        tags: ['stores'],
        summary: 'Take a recount for true, with a reason, or ask for another',
        params: IdParams,
        body: DecideCount,
        response: { 201: CountDecided, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const { shortages } = await decideCount(act, { sheetId: request.params.id, ...request.body });
        const sheet = await countSheet(act.sql, request.params.id, readerOf(request));
        return { status: 201, body: { shortages: [...shortages], sheet } };
      }),
  );
};
