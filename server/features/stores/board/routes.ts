import { StoresBoard } from '#contracts/stores.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { sharedRead } from '#platform/shared-read.ts';
import { storesBoard } from './service.ts';

export const boardRoutes: Feature = async (app, { db }) => {
  const board = sharedRead(() => storesBoard(db.sql));
  app.get(
    '/stores/board',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What stores have before them: demands by open job, shortages, low stock, coming in',
        response: { 200: StoresBoard, ...refusals(401) },
      },
    },
    async () => board(),
  );
};
