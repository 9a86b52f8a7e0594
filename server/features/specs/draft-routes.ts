import { z } from 'zod';
import {
  Drafted,
  DraftKept,
  DraftRevision,
  NewFamily,
  Published,
  Revisions,
  SpecSheetDocument,
} from '#contracts/spec-sheets.ts';
import { Id, IdParams } from '#contracts/wire.ts';
import { acceptCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { etagOf, versionAsked, write } from '#platform/http/write.ts';
import { importSheetCsv } from './csv-import.ts';
import {
  addFamily,
  beginningOf,
  discardDraft,
  documentOf,
  draftLocked,
  draftRevision,
  publishDraft,
  replaceDraft,
  revisionsOf,
} from './draft-service.ts';

const fileLimit = 1_048_576;

export const familyRoutes: Feature = async (app, { db }) => {
  app.post(
    '/families',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['specs'],
        summary: 'Add a family of engines',
        description: 'Engines of it can be taken in once it has a published spec sheet.',
        body: NewFamily,
        response: { 201: z.strictObject({ id: Id }), ...refusals(400, 401, 403, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await addFamily(act, request.body) })),
  );

  app.get(
    '/families/:id/spec-revisions',
    {
      config: { right: 'look' },
      schema: {
        tags: ['specs'],
        summary: 'The revisions of a family’s spec sheet, newest first',
        params: IdParams,
        response: { 200: Revisions, ...refusals(400, 401, 404) },
      },
    },
    async (request) => revisionsOf(db.sql, request.params.id),
  );

  app.post(
    '/families/:id/spec-revisions',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['specs'],
        summary: 'Draft the next revision',
        description: 'A copy of another revision, a document, or empty. A family has one draft at a time.',
        params: IdParams,
        body: DraftRevision,
        response: { 201: Drafted, ...refusals(400, 401, 403, 404, 409, 413, 422) },
      },
    },
    async (request, reply) => {
      const beginning = await beginningOf(db, request.body);
      return write(db.sql, { request, reply }, async (act) => {
        const drafted = await draftRevision(act, { familyId: request.params.id, beginning });
        return { status: 201, body: drafted, etag: etagOf(drafted.version) };
      });
    },
  );
};

const ifMatchWords = 'Needs If-Match with the ETag of sheet.json as it was read. A published revision never changes.';

const csvRoutes: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  const ways = [
    [
      'PUT',
      'Put the tables of a CSV file in the place of a draft’s',
      'What the file has no table for stays; places that it names are added or changed.',
    ],
    [
      'PATCH',
      'Add what a CSV file says to a draft',
      'A row that says what a dimension, a set, a ring, a valve or a proof is replaces that; a row of a figure or a position changes that alone.',
    ],
  ] as const;
  for (const [method, summary, words] of ways) {
    app.route({
      method,
      url: '/spec-revisions/:id/sheet.csv',
      config: { right: 'set up' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['specs'],
        summary,
        description: `${words} All of the file is kept, or nothing and every bad row is named with its column. The tables and their columns are in docs/spec-sheets.md. ${ifMatchWords}`,
        consumes: ['text/csv'],
        params: IdParams,
        body: z.string().meta({
          examples: [
            'dimension;what;value;unit;place;method;decimals\r\npump-tip;dimension;;mm;oil pump;interval;2\r\npump-tip;position;;;;;\r\n',
          ],
        }),
        response: { 200: DraftKept, ...refusals(400, 401, 403, 404, 409, 412, 413, 415, 422, 428) },
      },
      handler: async (request, reply) => {
        const asked = { id: request.params.id, version: versionAsked(request) };
        const { document: before } = await documentOf(db, asked.id);
        return write(db.sql, { request, reply }, async (act) => {
          const revision = await draftLocked(act, asked);
          const file = { before: revision.document ?? before, keep: method === 'PATCH', text: request.body };
          const kept = await importSheetCsv(act, revision, file);
          return { status: 200, body: kept, etag: etagOf(kept.version) };
        });
      },
    });
  }
};

export const draftRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(csvRoutes, platform);

  app.put(
    '/spec-revisions/:id/sheet.json',
    {
      config: { right: 'set up' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['specs'],
        summary: 'Put a document in the place of all that a draft holds',
        description: `Every fault is named by its JSON pointer, and then nothing is kept. ${ifMatchWords}`,
        params: IdParams,
        body: SpecSheetDocument,
        response: { 200: DraftKept, ...refusals(400, 401, 403, 404, 409, 412, 413, 422, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, version: versionAsked(request) };
      return write(db.sql, { request, reply }, async (act) => {
        const kept = await replaceDraft(act, await draftLocked(act, asked), request.body);
        return { status: 200, body: kept, etag: etagOf(kept.version) };
      });
    },
  );

  app.post(
    '/spec-revisions/:id/publish',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['specs'],
        summary: 'Publish a draft',
        description: `Engines taken in from now on are bound to it; a job keeps the revision it was taken in on. ${ifMatchWords}`,
        params: IdParams,
        response: { 200: Published, ...refusals(400, 401, 403, 404, 409, 412, 422, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, version: versionAsked(request) };
      const { document } = await documentOf(db, asked.id);
      return write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await publishDraft(act, asked, document),
      }));
    },
  );

  app.delete(
    '/spec-revisions/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['specs'],
        summary: 'Discard a draft',
        description: ifMatchWords,
        params: IdParams,
        response: { 200: z.strictObject({ number: z.int() }), ...refusals(400, 401, 403, 404, 409, 412, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, version: versionAsked(request) };
      return write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await discardDraft(act, asked) }));
    },
  );
};
