import { ProcedureDocument, ProcedureFaults, ProcedureNames, ProcedureShelf } from '#contracts/procedure-documents.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { etagOf } from '#platform/http/write.ts';
import { documentOf, faultsIn, namesIn, shelf } from './document-service.ts';

/** Every version to be read: as a document, with what is wrong with it and what its codes mean. */
export const documentRoutes: Feature = async (app, { db }) => {
  app.get(
    '/procedure-shelf',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'Every procedure with all its versions, drafts too',
        response: { 200: ProcedureShelf, ...refusals(401) },
      },
    },
    async () => shelf(db.sql),
  );

  app.get(
    '/procedure-versions/:id/procedure.json',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'A version as a document',
        description: 'It goes back in as it came out. docs/procedures.md tells the shape.',
        params: IdParams,
        response: { 200: ProcedureDocument, ...refusals(400, 401, 404) },
      },
    },
    async (request, reply) => {
      const { version, document } = await documentOf(db.sql, request.params.id);
      reply
        .header('etag', etagOf(version.edit))
        .header('content-disposition', `attachment; filename="procedure-${version.code}-${version.number}.json"`)
        .type('application/json; charset=utf-8')
        .serializer((body) => `${JSON.stringify(body, null, 2)}\n`);
      return document;
    },
  );

  app.get(
    '/procedure-versions/:id/faults',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'What keeps a version from being published, by step and field',
        description: 'Dimensions and fastener sets are looked up on the family’s newest published spec sheet.',
        params: IdParams,
        response: { 200: ProcedureFaults, ...refusals(400, 401, 404) },
      },
    },
    async (request) => faultsIn(db.sql, request.params.id),
  );

  app.get(
    '/procedure-versions/:id/names',
    {
      config: { right: 'look' },
      schema: {
        tags: ['procedures'],
        summary: 'What the dimensions and fastener sets of a version are called',
        description: 'As the family’s newest published spec sheet says; what that does not have is left out.',
        params: IdParams,
        response: { 200: ProcedureNames, ...refusals(400, 401, 404) },
      },
    },
    async (request) => namesIn(db.sql, request.params.id),
  );
};
