import { z } from 'zod';
import { FileTaken } from '#contracts/stores-files.ts';
import { IdParams } from '#contracts/wire.ts';
import { acceptCsv, csvReply, sendCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { tried } from '../files/trying.ts';
import { keyCountFile, sheetFile } from './filed.ts';

const fileLimit = 2_000_000;

/** A sheet as a file to be filled in, and the file as it comes back. */
export const countFileRoutes: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  const asked = {
    tags: ['stores'],
    consumes: ['text/csv'],
    params: IdParams,
    body: z.string().meta({ examples: ['bin,part,counted\r\nE-02,QL-9001,7\r\n'] }),
  };
  const refused = refusals(400, 401, 403, 404, 409, 413, 415, 422);
  app.get(
    '/count-sheets/:id/sheet.csv',
    {
      config: { right: 'look' },
      schema: {
        tags: ['stores'],
        summary: 'What is to be counted of a sheet, as a CSV file without what the books say',
        params: IdParams,
        response: { 200: csvReply, ...refusals(400, 401, 404) },
      },
    },
    async (request, reply) =>
      sendCsv(reply, 'count-sheet', await sheetFile(db.sql, request.params.id, actorOf(request).id)),
  );
  app.post(
    '/count-sheets/:id/counts/import/check',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        ...asked,
        summary: 'What a CSV file of counts would bring; nothing is kept',
        response: { 200: FileTaken, ...refused },
      },
    },
    async (request) =>
      tried(db.sql, actorOf(request), (act) => keyCountFile(act, { sheetId: request.params.id, text: request.body })),
  );
  app.post(
    '/count-sheets/:id/counts/import',
    {
      config: { right: 'stores' },
      bodyLimit: fileLimit,
      schema: {
        ...asked,
        summary: 'Key counts from a CSV file',
        description: 'All of the file is kept, or none of it. A row whose count is empty is left out.',
        response: { 201: FileTaken, ...refused },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await keyCountFile(act, { sheetId: request.params.id, text: request.body }),
      })),
  );
};
