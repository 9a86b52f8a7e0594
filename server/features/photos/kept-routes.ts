import { NotePhoto, Photo, RemovePhoto } from '#contracts/photos.ts';
import { IdParams, Made } from '#contracts/wire.ts';
import type { FileStore } from '#platform/files/store.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { write } from '#platform/http/write.ts';
import { discardContent, notePhoto, removeDiscarded, removePhoto } from './kept-service.ts';

/** What is done with a photo once it is kept. */
export const keptRoutes =
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
      async (request, reply) => {
        const { id } = request.params;
        const discarded = await write(db.sql, { request, reply }, async (act) => ({
          status: 200,
          body: await discardContent(act, { id, reason: request.body.reason }),
        }));
        await removeDiscarded(db.sql, store, id);
        return discarded;
      },
    );
  };
