import type { z } from 'zod';
import { refusals } from '#platform/http/feature.ts';

/** Anybody may reckon here, without signing in; so many a minute from one address. */
export const looseConfig = { right: 'public', rateLimit: { max: 240, timeWindow: '1 minute' } } as const;

export const looseSchema = <Body extends z.ZodType, Found extends z.ZodType>(of: {
  readonly summary: string;
  readonly description: string;
  readonly body: Body;
  readonly found: Found;
}) => ({
  tags: ['bench'],
  summary: of.summary,
  description: `${of.description}\n\nNeeds no job, no session and no Idempotency-Key, and changes nothing.`,
  security: [],
  body: of.body,
  response: { 200: of.found, ...refusals(400, 413, 422, 429) },
});
