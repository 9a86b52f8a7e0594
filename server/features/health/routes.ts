import type { FastifyPluginAsync } from 'fastify';
import type { Platform } from '#platform/http/feature.ts';
import { ProblemError } from '#platform/problem.ts';

/** /healthz: the process answers. /readyz: it can serve, with the database and its listener. */
export const health: FastifyPluginAsync<Platform> = async (app, { db, live }) => {
  app.get('/healthz', { schema: { hide: true } }, async () => ({ alive: true }));
  app.get('/readyz', { schema: { hide: true } }, async () => {
    const answered = await Promise.race([
      db.sql`select 1`.then(
        () => true,
        () => false,
      ),
      new Promise<boolean>((resolve) => setTimeout(resolve, 3000, false).unref()),
    ]);
    if (!answered || !live.ready())
      throw new ProblemError('not-ready', 'The database does not answer. Try again shortly.');
    return { ready: true };
  });
};
