import { z } from 'zod';
import {
  DrawLabels,
  DrawnLabels,
  LabelChoices,
  LabelChoicesQuery,
  LabelStocks,
  PrintLabels,
} from '#contracts/labels.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { choices, drawLabels, printLabels, stocks } from './service.ts';

const often = { max: 120, timeWindow: '1 minute' };

/** Labels to print. Nothing is written: every thing has had its code since it was there. */
export const labelsFeature: Feature = async (app, { db }) => {
  app.get(
    '/label-stocks',
    {
      config: { right: 'look' },
      schema: { tags: ['labels'], summary: 'Label sheets and rolls', response: { 200: LabelStocks, ...refusals(401) } },
    },
    async () => stocks(),
  );

  app.get(
    '/labels',
    {
      config: { right: 'look' },
      schema: {
        tags: ['labels'],
        summary: 'What labels can be printed for, of one kind',
        querystring: LabelChoicesQuery,
        response: { 200: LabelChoices, ...refusals(400, 401) },
      },
    },
    async (request) => choices(db.sql, request.query.kind, request.query.search ?? ''),
  );

  app.post(
    '/labels/drawings',
    {
      config: { right: 'look', rateLimit: often },
      schema: {
        tags: ['labels'],
        summary: 'Labels as SVG images',
        description:
          'Writes nothing, so no Idempotency-Key is needed. A badge is drawn by its code, for those who may set up.',
        body: DrawLabels,
        response: { 200: DrawnLabels, ...refusals(400, 401, 403, 404, 422, 429) },
      },
    },
    async (request) => drawLabels({ sql: db.sql, actor: actorOf(request) }, request.body),
  );

  app.post(
    '/labels/sheet',
    {
      config: { right: 'look', rateLimit: often },
      schema: {
        tags: ['labels'],
        summary: 'Labels as a PDF to print in true size',
        description:
          'From a label of your choice on a part-used sheet, moved by what the printer is out by. The same labels make the same bytes. Writes nothing, so no Idempotency-Key is needed.',
        body: PrintLabels,
        response: {
          200: { description: 'Print it without scaling', content: { 'application/pdf': { schema: z.any() } } },
          ...refusals(400, 401, 403, 404, 413, 422, 429),
        },
      },
    },
    async (request, reply) => {
      const pdf = await printLabels({ sql: db.sql, actor: actorOf(request) }, request.body);
      return reply
        .type('application/pdf')
        .header('content-disposition', 'inline; filename="labels.pdf"')
        .header('cache-control', 'no-store')
        .serializer((body) => body as never)
        .send(pdf);
    },
  );
};
