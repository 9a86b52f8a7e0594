import { PartPromise, PartsReady, PromiseQuery } from '#contracts/promising.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { partPromise, partsReady } from './service.ts';

export const promisingRoutes: Feature = async (app, { db }) => {
  app.get(
    '/parts/:id/promise',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What can be promised of a part, for a day and day by day',
        description:
          'Over on hand, reserved, expected and wanted. What has no date, or is late without one, is not promised on.',
        params: IdParams,
        querystring: PromiseQuery,
        response: { 200: PartPromise, ...refusals(400, 401, 404) },
      },
    },
    async (request) => partPromise(db.sql, request.params.id, request.query),
  );

  app.get(
    '/jobs/:id/parts-ready',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'When all that a job wants from stores can be here',
        params: IdParams,
        response: { 200: PartsReady, ...refusals(400, 401, 404) },
      },
    },
    async (request) => partsReady(db.sql, request.params.id),
  );
};
