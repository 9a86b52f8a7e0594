import { Floor } from '#contracts/floor.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { sharedRead } from '#platform/shared-read.ts';
import { floorFacts, floorNow } from './service.ts';

export const floorFeature: Feature = async (app, { db }) => {
  const facts = sharedRead(() => floorFacts(db.sql));
  app.get(
    '/floor',
    {
      config: { right: 'look' },
      schema: {
        tags: ['floor'],
        summary: 'Where everything stands now',
        description: 'Bays, engines, what is open, what is waited for, what is past a limit. All of one instant.',
        response: { 200: Floor, ...refusals(401, 403) },
      },
    },
    async (request) => floorNow(db.sql, actorOf(request).id, facts),
  );
};
