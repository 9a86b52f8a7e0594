import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  AddPhotoQuery,
  FilesCheck,
  NotePhoto,
  Photo,
  PhotoFile,
  Photos,
  RemovePhoto,
  ThumbnailQuery,
} from '#contracts/photos.ts';
import { Made } from '#contracts/procedures.ts';
import { IdParams } from '#contracts/wire.ts';
import { MOST_PHOTO_BYTES } from '#domain/files/limits.ts';
import type { Database } from '#platform/database/client.ts';
import { prepare } from '#platform/files/picture.ts';
import { type FileStore, openFileStore, type Part } from '#platform/files/store.ts';
import { type Feature, type Platform, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { ProblemError } from '#platform/problem.ts';
import { addPhoto, checkFiles, contentOf, discardContent, notePhoto, photosOf, removePhoto } from './service.ts';

export const photosFeature: Feature = async (app, platform) => {
  const store = openFileStore(platform.config.filesFolder);
  await app.register(addingRoute(store), platform);
  await app.register(readingRoutes(store), platform);
  await app.register(removingRoutes(store), platform);
};

const tooLarge = `A photo or document may have at most ${MOST_PHOTO_BYTES / 1_048_576} MB. Take it with fewer pixels, or send a smaller file.`;

/** Whatever the type it is said to be, the body comes in as bytes, cut off at the limit, and is judged by its content. */
const addingRoute =
  (store: FileStore): Feature =>
  async (app, { db }) => {
    app.removeAllContentTypeParsers();
    app.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
    app.post(
      '/jobs/:id/photos',
      {
        config: { right: 'look' },
        bodyLimit: MOST_PHOTO_BYTES,
        onRequest: async ({ headers }) => {
          if (Number(headers['content-length'] ?? 0) > MOST_PHOTO_BYTES) throw new ProblemError('too-big', tooLarge);
        },
        schema: {
          tags: ['photos'],
          summary: 'Keep a photo or a document with a job',
          description:
            'The body is the file itself: a JPEG, PNG or WebP picture or a PDF, at most 25 MB and 64 million pixels. A picture is turned upright and loses all its metadata, where it was taken with it; a PDF is kept as it is. The query says what it shows: at most one thing of the job.',
          consumes: ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'],
          params: IdParams,
          querystring: AddPhotoQuery,
          body: PhotoFile,
          response: { 201: Photo, ...refusals(400, 401, 403, 404, 409, 413, 415, 422) },
        },
      },
      async (request, reply) => {
        const upload = Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0);
        const prepared = await prepare(upload);
        return write(db.sql, { request, reply }, async (act) => ({
          status: 201,
          body: await addPhoto(act, store, { jobId: request.params.id, asked: request.query, prepared }),
        }));
      },
    );
  };

/** What is under an id never becomes anything else, so a browser may keep it; it is for this browser alone. */
async function sendFile(
  { db, store, part }: { db: Database; store: FileStore; part: Part },
  request: FastifyRequest<{ Params: { id: string } }>,
  reply: FastifyReply,
) {
  const file = await contentOf({ sql: db.sql, store }, { id: request.params.id, part, viewer: actorOf(request) });
  const etag = `"${file.hash}${part === 'content' ? '' : `-${part}`}"`;
  reply
    .header('etag', etag)
    .header('cache-control', 'private, max-age=31536000, immutable')
    .header('content-security-policy', "default-src 'none'; frame-ancestors 'none'; sandbox")
    .header('content-disposition', dispositionOf(file));
  if (request.headers['if-none-match'] === etag) return reply.code(304).send();
  return reply.type(file.type).send(file.bytes);
}

/** A document is saved, never opened in the page. */
function dispositionOf({ type, name }: { type: string; name: string }): string {
  if (type !== 'application/pdf') return 'inline';
  const plain = name.replaceAll(/[^\w. -]+/g, '_').slice(0, 120) || 'document.pdf';
  return `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name || 'document.pdf').replaceAll("'", '%27')}`;
}

const binary = (...types: readonly string[]) => ({
  description: 'The bytes',
  content: Object.fromEntries(types.map((type) => [type, { schema: z.unknown() }])),
});

const readingRoutes =
  (store: FileStore): Feature =>
  async (app, { db }: Platform) => {
    app.get(
      '/engines/:id/photos',
      {
        config: { right: 'look' },
        schema: {
          tags: ['photos'],
          summary: 'Photos and documents of an engine, over all its visits',
          description: 'A photo of pieces that the reader is yet to count blind shows once they are counted.',
          params: IdParams,
          response: { 200: Photos, ...refusals(400, 401, 404) },
        },
      },
      async (request) => photosOf(db.sql, { engineId: request.params.id, viewerId: actorOf(request).id }),
    );

    app.get(
      '/photos/:id/content',
      {
        config: { right: 'look' },
        schema: {
          tags: ['photos'],
          summary: 'The photo or document itself',
          params: IdParams,
          response: {
            200: binary('image/jpeg', 'image/png', 'image/webp', 'application/pdf'),
            ...refusals(400, 401, 403, 404),
          },
        },
      },
      async (request, reply) => sendFile({ db, store, part: 'content' }, request, reply),
    );

    app.get(
      '/photos/:id/thumbnail',
      {
        config: { right: 'look' },
        schema: {
          tags: ['photos'],
          summary: 'A smaller one: 320 or 1600 pixels along its longer side',
          params: IdParams,
          querystring: ThumbnailQuery,
          response: { 200: binary('image/webp'), ...refusals(400, 401, 403, 404) },
        },
      },
      async (request, reply) => sendFile({ db, store, part: request.query.size }, request, reply),
    );

    app.get(
      '/photos/check',
      {
        config: { right: 'set up' },
        schema: {
          tags: ['photos'],
          summary: 'Hold the rows against the files in the store',
          response: { 200: FilesCheck, ...refusals(401, 403) },
        },
      },
      async () => checkFiles(db.sql, store),
    );
  };

const removingRoutes =
  (store: FileStore): Feature =>
  async (app, { db }) => {
    app.post(
      '/photos/:id/notes',
      {
        config: { right: 'look' },
        schema: {
          tags: ['photos'],
          summary: 'Write under a photo, and say whether the build sheet prints it',
          description: 'Whoever took it, the bench or the counter. The newest note stands, the earlier ones are kept.',
          params: IdParams,
          body: NotePhoto,
          response: { 200: Photo, ...refusals(400, 401, 403, 404, 409, 422) },
        },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await notePhoto(act, request.params.id, request.body),
        })),
    );

    app.post(
      '/photos/:id/remove',
      {
        config: { right: 'lead' },
        schema: {
          tags: ['photos'],
          summary: 'Remove a photo from every view, with a reason',
          description: 'The timeline goes on telling that it was there, who removed it and why.',
          params: IdParams,
          body: RemovePhoto,
          response: { 200: Made, ...refusals(400, 401, 403, 404, 409) },
        },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await removePhoto(act, request.params.id, request.body.reason),
        })),
    );

    app.post(
      '/photos/:id/discard',
      {
        config: { right: 'lead' },
        schema: {
          tags: ['photos'],
          summary: 'Take the content of a removed photo out of the store for good',
          description: 'Refused while another photo shows the same content.',
          params: IdParams,
          body: RemovePhoto,
          response: { 200: Made, ...refusals(400, 401, 403, 404, 409, 422) },
        },
      },
      async (request, reply) =>
        write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await discardContent(act, store, { id: request.params.id, reason: request.body.reason }),
        })),
    );
  };
