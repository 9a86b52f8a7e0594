import { AddPhotoQuery, Photo, PhotoFile, Photos } from '#contracts/photos.ts';
import { IdParams } from '#contracts/wire.ts';
import { MOST_PHOTO_BYTES } from '#domain/files/limits.ts';
import { prepare } from '#platform/files/picture.ts';
import { type FileStore, openFileStore } from '#platform/files/store.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { ProblemError } from '#platform/problem.ts';
import { fileRoutes } from './file-routes.ts';
import { keptRoutes } from './kept-routes.ts';
import { addPhoto, photosOf } from './service.ts';

export const photosFeature: Feature = async (app, platform) => {
  const store = openFileStore(platform.config.filesFolder);
  await app.register(addingRoute(store), platform);
  await app.register(listingRoute, platform);
  await app.register(fileRoutes(store), platform);
  await app.register(keptRoutes(store), platform);
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

const listingRoute: Feature = async (app, { db }) => {
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
};
