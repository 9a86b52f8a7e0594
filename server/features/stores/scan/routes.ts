import { Bins, Scanned, ScanQuery } from '#contracts/stores.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { bins, scanned } from './service.ts';

export const scanRoutes: Feature = async (app, { db }) => {
  app.get(
    '/stores/scan',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What a scanned label is: a part, a bin or a tray',
        querystring: ScanQuery,
        response: { 200: Scanned, ...refusals(400, 401) },
      },
    },
    async (request) => scanned(db.sql, request.query.text),
  );

  app.get(
    '/bins',
    {
      config: { right: 'look' },
      schema: { tags: ['stores'], summary: 'Bins that take goods in', response: { 200: Bins, ...refusals(401) } },
    },
    async () => ({ items: await bins(db.sql) }),
  );
};
