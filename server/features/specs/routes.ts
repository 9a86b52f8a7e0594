import { Families, SpecSheet } from '#contracts/specs.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { documentRoutes } from './document-routes.ts';
import { draftRoutes, familyRoutes } from './draft-routes.ts';
import { families, sheetInFull } from './service.ts';

export const specsFeature: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(familyRoutes, platform);
  await app.register(documentRoutes, platform);
  await app.register(draftRoutes, platform);

  app.get(
    '/families',
    {
      config: { right: 'look' },
      schema: { tags: ['specs'], summary: 'Engine families', response: { 200: Families, ...refusals(401) } },
    },
    async () => families(db.prisma),
  );

  app.get(
    '/spec-revisions/:id',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'One spec sheet in full',
        description: 'Places, dimensions with positions and limits by size class, fasteners, rings, valves, proofs.',
        params: IdParams,
        response: { 200: SpecSheet, ...refusals(400, 401, 404) },
      },
    },
    async (request) => sheetInFull(db, request.params.id),
  );
};
