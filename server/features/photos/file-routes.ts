import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { FilesCheck, FilesCheckQuery } from '#contracts/files-check.ts';
import { ThumbnailQuery } from '#contracts/photos.ts';
import { IdParams } from '#contracts/wire.ts';
import type { Database } from '#platform/database/client.ts';
import type { FileStore, Part } from '#platform/files/store.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { filesCheck } from './check-service.ts';
import { contentOf } from './file-service.ts';

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

/** A document opens in the browser's own reader, in a tab by itself, and is saved under the name it came with. */
function dispositionOf({ type, name }: { type: string; name: string }): string {
  if (type !== 'application/pdf') return 'inline';
  const plain = name.replaceAll(/[^\w. -]+/g, '_').slice(0, 120) || 'document.pdf';
  return `inline; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name || 'document.pdf').replaceAll("'", '%27')}`;
}

const binary = (...types: readonly string[]) => ({
  description: 'The bytes',
  content: Object.fromEntries(types.map((type) => [type, { schema: z.unknown() }])),
});

/** The files themselves, and whether all of them are there and are what was stored. */
export const fileRoutes =
  (store: FileStore): Feature =>
  async (app, { db }) => {
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
          summary: 'Hold the rows against the files in the store, and each file against its hash',
          description:
            'Every content is read to its end, so it takes as long as reading the folder does; asked for a part of the folders after the other, it tells how far it is. It ends when whoever asks hangs up, and changes nothing.',
          querystring: FilesCheckQuery,
          response: { 200: FilesCheck, ...refusals(400, 401, 403) },
        },
      },
      async (request) =>
        filesCheck(
          { sql: db.sql, store },
          { folders: request.query, viewerId: actorOf(request).id, signal: request.signal },
        ),
    );
  };
