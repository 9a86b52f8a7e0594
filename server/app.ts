import { existsSync } from 'node:fs';
import path from 'node:path';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import fastifyStatic from '@fastify/static';
import Fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Config } from '#platform/config.ts';
import type { Database } from '#platform/database/client.ts';
import { installGuard } from '#platform/http/guard.ts';
import { installOpenApi } from '#platform/http/open-api.ts';
import { installProblemHandler } from '#platform/http/problem-handler.ts';
import { openLiveHub } from '#platform/live/hub.ts';
import { ProblemError } from '#platform/problem.ts';
import { health } from './features/health/routes.ts';
import { features } from './features/index.ts';

const BODY_LIMIT = 1_048_576;

const contentSecurity = {
  directives: {
    defaultSrc: ["'self'"],
    // The camera's decoder is WebAssembly of our own; this allows compiling it, and no eval.
    scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
    baseUri: ["'none'"],
    objectSrc: ["'none'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    frameAncestors: ["'none'"],
    formAction: ["'self'"],
    // Served over plain HTTP inside a shop, so nothing may be silently upgraded to https.
    upgradeInsecureRequests: null,
  },
  useDefaults: false,
};

/** One Fastify instance out of the platform's plugins and the features; closed by `close()`, which ends its streams first. */
export async function buildApp({
  config,
  db,
}: {
  readonly config: Config;
  readonly db: Database;
}): Promise<FastifyInstance> {
  const app = Fastify({
    logger: config.logLevel === 'silent' ? false : { level: config.logLevel, redact: ['req.headers.cookie'] },
    bodyLimit: BODY_LIMIT,
    trustProxy: config.publicOrigin !== undefined,
    requestIdHeader: false,
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 200 },
  }).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  installProblemHandler(app);

  const live = await openLiveHub(db.sql);
  app.addHook('preClose', () => live.close());

  await app.register(helmet, {
    contentSecurityPolicy: contentSecurity,
    strictTransportSecurity: config.publicOrigin?.startsWith('https:') ?? false,
    crossOriginOpenerPolicy: false,
    originAgentCluster: false,
  });
  // Pages may use this terminal's camera, and nothing else of it.
  app.addHook('onSend', async (_request, reply) => {
    reply.header('permissions-policy', 'camera=(self), microphone=(), geolocation=()');
  });
  await app.register(cookie);
  await app.register(rateLimit, { global: false });
  await installOpenApi(app);
  installGuard(app, { sql: db.sql, publicOrigin: config.publicOrigin });

  const platform = { db, config, live };
  await app.register(health, platform);
  await app.register(
    async (api) => {
      for (const feature of features) await api.register(feature, platform);
    },
    { prefix: '/api' },
  );
  await serveDashboard(app, path.join(config.projectFolder, 'dist/web'));
  return app;
}

/** The built dashboard; every address that is no file and not under /api is one of its views. */
async function serveDashboard(app: FastifyInstance, root: string): Promise<void> {
  const built = existsSync(root);
  if (built)
    await app.register(fastifyStatic, {
      root,
      wildcard: false,
      index: false,
      cacheControl: false,
      setHeaders: (reply, file) => {
        reply.header('cache-control', file.includes('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    });
  app.setNotFoundHandler(async (request, reply) => {
    // A missing script answered with the page would only hide that it is missing.
    if (!built || request.method !== 'GET' || /^\/(api|assets)\//.test(request.url)) {
      throw new ProblemError(
        'not-found',
        `There is no ${request.method} ${request.url.split('?')[0]}. See /api/docs for what there is.`,
      );
    }
    return reply.header('cache-control', 'no-cache').sendFile('index.html');
  });
}
