import { z } from 'zod';
import { KeptReadings, KeyReadings, Preview, StrikeReading, StruckReading } from '#contracts/readings.ts';
import { IdParams } from '#contracts/wire.ts';
import { acceptCsv } from '#platform/http/csv.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { draftsOf, importReadings, keepReadings, previewReadings, readingsTemplate, strikeReading } from './service.ts';

const fileLimit = 1_048_576;

const importWords = `
A file as a technician may have typed it, up to 1 MB and 5000 rows; the first row names the columns, in any order and
case. Cells are parted by commas, semicolons or tabs; figures take a decimal point or comma. All rows are kept, or none:
then every bad row is named with its column.

| column | holds |
| --- | --- |
| round | as received, after work or as built |
| dimension, position | codes of the spec sheet (see the template) |
| repeat | 1, 2 …; empty: 1 |
| value | what the instrument showed; for play felt by hand: play or none |
| unit | mm, in, um, N.m …; empty: the unit the sheet prints |
| instrument | its code; empty for play felt by hand |
| part_temp_c, instrument_temp_c | in °C, where they were taken |
| go, no_go | a feeler's blades instead of a value: 0.35, or 0.25+0.10 laid together; empty or none: no blade |
| reason | for a value that would be asked about: why it is right all the same |
`;

const importRoute: Feature = async (app, { db }) => {
  acceptCsv(app, fileLimit);
  app.post(
    '/jobs/:id/readings/import',
    {
      config: { right: 'bench' },
      bodyLimit: fileLimit,
      schema: {
        tags: ['readings'],
        summary: 'Keep the readings of a CSV file',
        description: importWords,
        consumes: ['text/csv'],
        params: IdParams,
        body: z.string().meta({
          examples: [
            'round;dimension;position;value;unit;instrument;part_temp_c\r\nas received;bore;A-across;88,048;mm;BG-2;22,5\r\n',
          ],
        }),
        response: { 201: KeptReadings, ...refusals(400, 401, 403, 404, 409, 413, 415, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await importReadings(act, { jobId: request.params.id, text: request.body }),
      })),
  );
};

export const readingsRoutes: Feature = async (app, platform) => {
  const { db } = platform;
  app.post(
    '/jobs/:id/readings',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['readings'],
        summary: 'Key readings, and judge what they make possible',
        description:
          'A reading 25.4 times off, or hardly possible, is refused with the question; send it again corrected, or with confirmReason. Findings, derived ones too, and obligations follow at once.',
        params: IdParams,
        body: KeyReadings,
        response: { 201: KeptReadings, ...refusals(400, 401, 403, 404, 409, 422) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 201,
        body: await keepReadings(act, { jobId: request.params.id, drafts: draftsOf(request.body) }),
      })),
  );

  app.post(
    '/jobs/:id/readings/preview',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['readings'],
        summary: 'The verdict as it is typed; nothing is kept',
        description:
          'The body of keying readings. Works with what stands plus these; a typed reading takes the place of one that stands. Needs no Idempotency-Key.',
        params: IdParams,
        body: KeyReadings,
        response: { 200: Preview, ...refusals(400, 401, 403, 404) },
      },
    },
    async (request) => {
      const { id, name } = actorOf(request);
      return previewReadings(db.sql, {
        jobId: request.params.id,
        drafts: draftsOf(request.body),
        reader: { id, name },
      });
    },
  );

  app.get(
    '/jobs/:id/readings/template.csv',
    {
      config: { right: 'look' },
      schema: {
        tags: ['readings'],
        summary: 'A CSV file to fill in, one row a position of the spec sheet',
        params: IdParams,
        response: {
          200: { description: 'Semicolons between the columns', content: { 'text/csv': { schema: z.string() } } },
          ...refusals(400, 401, 404),
        },
      },
    },
    async (request, reply) => {
      const text = await readingsTemplate(db.sql, request.params.id);
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', 'attachment; filename="readings.csv"')
        .serializer(String)
        .send(text);
    },
  );

  app.post(
    '/readings/:id/strike',
    {
      config: { right: 'bench' },
      schema: {
        tags: ['readings'],
        summary: 'Strike a reading that was wrong',
        description: 'It stays to be seen and counts no more; what rested on it is judged anew.',
        params: IdParams,
        body: StrikeReading,
        response: { 200: StruckReading, ...refusals(400, 401, 403, 404, 409) },
      },
    },
    async (request, reply) =>
      write(db.sql, { request, reply }, async (act) => ({
        status: 200,
        body: await strikeReading(act, { id: request.params.id, reason: request.body.reason }),
      })),
  );

  await app.register(importRoute, platform);
};
