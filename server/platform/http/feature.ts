import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { Problem } from '#contracts/problems.ts';
import type { Config } from '#platform/config.ts';
import type { Database } from '#platform/database/client.ts';
import type { LiveHub } from '#platform/live/hub.ts';

/** What every feature is given when it registers. */
export interface Platform {
  readonly db: Database;
  readonly config: Config;
  readonly live: LiveHub;
}

/** A feature's routes: one Fastify plugin, registered under /api by one line in features/index.ts. */
export type Feature = FastifyPluginAsyncZod<Platform>;

/** Problem replies for a route's schema, by status. */
export function refusals<Status extends number>(
  ...statuses: readonly Status[]
): Record<Status, { description: string; content: { 'application/problem+json': { schema: typeof Problem } } }> {
  const entry = {
    description: 'Refused, and nothing was changed',
    content: { 'application/problem+json': { schema: Problem } },
  };
  return Object.fromEntries(statuses.map((status) => [status, entry])) as Record<Status, typeof entry>;
}
