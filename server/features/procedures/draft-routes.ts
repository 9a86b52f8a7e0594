import { z } from 'zod';
import {
  DraftMade,
  NewProcedure,
  ProcedureDocument,
  ProcedureKept,
  ProcedurePublished,
} from '#contracts/procedure-documents.ts';
import { IdParams } from '#contracts/wire.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { etagOf, versionAsked, write } from '#platform/http/write.ts';
import { documentRoutes } from './document-routes.ts';
import { discardDraft, draftNext, importProcedure, keepDraft, newProcedure, publishDraft } from './draft-service.ts';

const fileLimit = 1_048_576;
const ifMatchWords =
  'Needs If-Match with the ETag of procedure.json as it was read. A published version never changes.';

const beginRoutes: Feature = async (app, { db }) => {
  app.post(
    '/procedures',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['procedures'],
        summary: 'Begin a new procedure with an empty draft',
        body: NewProcedure,
        response: { 201: DraftMade, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const made = await newProcedure(act, request.body);
        return { status: 201, body: made, etag: etagOf(made.edit) };
      }),
  );

  app.post(
    '/procedures/import',
    {
      config: { right: 'set up' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['procedures'],
        summary: 'Import a document as a draft',
        description:
          'A new procedure when no other has its code, else the next draft of that one. A document of another shape is refused, each fault by its JSON pointer, and nothing is kept.',
        body: ProcedureDocument,
        response: { 201: DraftMade, ...refusals(400, 401, 403, 409, 413, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const made = await importProcedure(act, request.body);
        return { status: 201, body: made, etag: etagOf(made.edit) };
      }),
  );

  app.post(
    '/procedures/:id/drafts',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['procedures'],
        summary: 'Draft the next version from the newest published one',
        description: 'A procedure has one draft at a time. Runs that are under way keep the version they began with.',
        params: IdParams,
        response: { 201: DraftMade, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => {
        const made = await draftNext(act, request.params.id);
        return { status: 201, body: made, etag: etagOf(made.edit) };
      }),
  );
};

export const draftRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  await app.register(documentRoutes, platform);
  await app.register(beginRoutes, platform);

  app.put(
    '/procedure-versions/:id/procedure.json',
    {
      config: { right: 'set up' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['procedures'],
        summary: 'Put a document in the place of all that a draft holds',
        description: `What is not of the shape is refused, each fault by its JSON pointer, and nothing is kept. What only keeps it from being published is kept and told. ${ifMatchWords}`,
        params: IdParams,
        body: ProcedureDocument,
        response: { 200: ProcedureKept, ...refusals(400, 401, 403, 404, 409, 412, 413, 422, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, edit: versionAsked(request) };
      return write(db.sql, { request, reply }, async (act) => {
        const kept = await keepDraft(act, asked, request.body);
        return { status: 200, body: kept, etag: etagOf(kept.edit) };
      });
    },
  );

  app.post(
    '/procedure-versions/:id/publish',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['procedures'],
        summary: 'Publish a draft',
        description: `Refused with every fault, by step and field, while it has any. Runs begun from now on follow it. ${ifMatchWords}`,
        params: IdParams,
        response: { 200: ProcedurePublished, ...refusals(400, 401, 403, 404, 409, 412, 422, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, edit: versionAsked(request) };
      return write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await publishDraft(act, asked) }));
    },
  );

  app.delete(
    '/procedure-versions/:id',
    {
      config: { right: 'set up' },
      schema: {
        tags: ['procedures'],
        summary: 'Discard a draft',
        description: ifMatchWords,
        params: IdParams,
        response: { 200: z.strictObject({ number: z.int() }), ...refusals(400, 401, 403, 404, 409, 412, 428) },
      },
    },
    async (request, reply) => {
      const asked = { id: request.params.id, edit: versionAsked(request) };
      return write(db.sql, { request, reply }, async (act) => ({ status: 200, body: await discardDraft(act, asked) }));
    },
  );
};
