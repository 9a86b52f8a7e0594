import { EngineEvents, EngineList, EnginePage, EnginesQuery, FamilyWear } from '#contracts/engines.ts';
import { IdParams, PageQuery } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { familyWear } from './family-wear.ts';
import { enginePage, eventsOf, listEngines } from './service.ts';

export const enginesFeature: Feature = async (app, { db }) => {
  app.get(
    '/engines',
    {
      config: { right: 'look' },
      schema: {
        tags: ['engines'],
        summary: 'Engines by serial',
        description: 'Those in the shop, or with state=all every one that was ever taken in.',
        querystring: EnginesQuery,
        response: { 200: EngineList, ...refusals(400, 401, 403) },
      },
    },
    async (request) => listEngines(db.sql, request.query),
  );

  app.get(
    '/engines/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['engines'],
        summary: 'Everything about one engine',
        description: 'Of its open visit, else of its last one. Quotes are null without the right to money.',
        params: IdParams,
        response: { 200: EnginePage, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) => enginePage(db, { engineId: request.params.id, viewer: actorOf(request) }),
  );

  app.get(
    '/engines/:id/family-wear',
    {
      config: { right: 'look' },
      schema: {
        tags: ['engines'],
        summary: 'How an engine wears among its family',
        params: IdParams,
        response: { 200: FamilyWear, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) => familyWear(db.sql, request.params.id),
  );

  app.get(
    '/engines/:id/events',
    {
      config: { right: 'look' },
      schema: {
        tags: ['engines'],
        summary: 'What happened to an engine, newest first',
        params: IdParams,
        querystring: PageQuery,
        response: { 200: EngineEvents, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) =>
      eventsOf(db.sql, { engineId: request.params.id, viewerId: actorOf(request).id, ...request.query }),
  );
};
