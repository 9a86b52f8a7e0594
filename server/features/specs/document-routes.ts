import { z } from 'zod';
import { RevisionJobs, SheetChanges, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { etagOf } from '#platform/http/write.ts';
import { changesSince, documentOf, jobsOn, type RevisionDrafted } from './draft-service.ts';
import { sheetAsCsv } from './sheet-csv.ts';

const attached = ({ familyCode, number }: RevisionDrafted, ending: 'json' | 'csv'): string =>
  `attachment; filename="spec-sheet-${familyCode}-${number}.${ending}"`;

export const documentRoutes: Feature = async (app, { db }) => {
  app.get(
    '/spec-revisions/:id/sheet.json',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'A spec sheet as a document',
        description:
          'Every figure in the digits and the unit of its source. It goes back in as it came out. docs/spec-sheets.md tells the shape.',
        params: IdParams,
        response: { 200: SpecSheetDocument, ...refusals(400, 401, 404) },
      },
    },
    async (request, reply) => {
      const { revision, document } = await documentOf(db, request.params.id);
      reply
        .header('etag', etagOf(revision.version))
        .header('content-disposition', attached(revision, 'json'))
        .type('application/json; charset=utf-8')
        .serializer((body) => `${JSON.stringify(body, null, 2)}\n`);
      return SpecSheetDocument.parse(document);
    },
  );

  app.get(
    '/spec-revisions/:id/sheet.csv',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'A spec sheet as a CSV file',
        description:
          'For a spreadsheet: places and dimensions, then fasteners, stages, rings, valves and proofs, each in a table of its own. It goes back in as it came out.',
        params: IdParams,
        response: {
          200: { description: 'UTF-8, commas between the columns', content: { 'text/csv': { schema: z.string() } } },
          ...refusals(400, 401, 404),
        },
      },
    },
    async (request, reply) => {
      const { revision, document } = await documentOf(db, request.params.id);
      return reply
        .type('text/csv; charset=utf-8')
        .header('etag', etagOf(revision.version))
        .header('content-disposition', attached(revision, 'csv'))
        .serializer(String)
        .send(sheetAsCsv(document));
    },
  );

  app.get(
    '/spec-revisions/:id/changes',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'What a revision says otherwise than another',
        description: 'Added, removed and changed, each figure from and to as it is printed.',
        params: IdParams,
        querystring: z.object({ since: Id }),
        response: { 200: SheetChanges, ...refusals(400, 401, 404, 422) },
      },
    },
    async (request) => changesSince(db, { id: request.params.id, since: request.query.since }),
  );

  app.get(
    '/spec-revisions/:id/jobs',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'The jobs bound to a revision',
        params: IdParams,
        response: { 200: RevisionJobs, ...refusals(400, 401, 404) },
      },
    },
    async (request) => jobsOn(db.sql, request.params.id),
  );
};
