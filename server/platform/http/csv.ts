import { Readable } from 'node:stream';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { z } from 'zod';

/** Takes CSV files as text in the routes of this plugin alone: files have a content type that no other route takes. */
export function acceptCsv(app: Pick<FastifyInstance, 'addContentTypeParser'>, bodyLimit: number): void {
  app.addContentTypeParser(['text/csv', 'text/plain'], { parseAs: 'string', bodyLimit }, (_request, body, done) =>
    done(null, body),
  );
}

/** How the API's description says that a CSV file is answered. */
export const csvReply = { description: 'Commas between the columns', content: { 'text/csv': { schema: z.any() } } };

/** Answers with a file to be saved, piece by piece as it is made. */
export const sendCsv = (reply: FastifyReply, name: string, file: AsyncIterable<string> | string): FastifyReply =>
  reply
    .type('text/csv; charset=utf-8')
    .header('content-disposition', `attachment; filename="${name}.csv"`)
    .send(Readable.from(typeof file === 'string' ? [file] : file));
