import { Scan, Scanned } from '#contracts/labels.ts';
import { type Feature, refusals } from '#platform/http/feature.ts';
import { scanned } from './service.ts';

/** Two hundred a minute is more than anybody scans, and too few to find a code by trying. */
const often = { max: 200, timeWindow: '1 minute' };

export const scansFeature: Feature = async (app, { db }) => {
  app.post(
    '/scans',
    {
      config: { right: 'look', rateLimit: often },
      schema: {
        tags: ['labels'],
        summary: 'What a scanned or typed label is, and where it stands',
        description:
          'An engine, a tray, a rack, a part or a bin; docs/labels.md tells what a code carries. Writes nothing, so no Idempotency-Key is needed: the text travels in a body so that no log keeps it.',
        body: Scan,
        response: { 200: Scanned, ...refusals(400, 401, 404, 422, 429) },
      },
    },
    async (request) => scanned(db.sql, request.body.text),
  );
};
