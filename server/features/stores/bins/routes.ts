import { Bins } from '#contracts/stores.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { bins } from './service.ts';

export const binRoutes: Feature = async (app, { db }) => {
  app.get(
    '/bins',
    {
      config: { right: 'look' },
      schema: { tags: ['stores'], summary: 'Bins that take goods in', response: { 200: Bins, ...refusals(401) } },
    },
    async () => ({ items: await bins(db.sql) }),
  );
};
