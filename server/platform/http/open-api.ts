import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';

const description = `
The whole dashboard works through this API; anything it does, another program can do.

**Sign in** with \`POST /api/session\`: a cookie carries the session. **Every write** needs a header
\`Idempotency-Key\` with a UUID of the client's own; repeat the request with the same key and it is done once and answered
the same. **Refusals** are RFC 9457 problem details that say what is wrong and what to do, and leave nothing half-done.
**Measured quantities** are decimal text with a unit, such as \`{"value": "88.048", "unit": "mm"}\`; **money** is whole
minor units as text. **Lists** are paged: pass \`next\` of one reply as \`after\` of the next request. **Edits** that two
people might make at once need \`If-Match\` with the \`ETag\` they read.

Operations under \`/api/bench\` need no job and change nothing: limits, instruments and readings all come in the body.
`;

/** OpenAPI 3.1 at /api/openapi.json, made from the contracts, and a page to browse and try it at /api/docs. */
export async function installOpenApi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Crosshatch',
        description,
        version: '1',
        license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
      },
      components: {
        securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: 'crosshatch_session' } },
      },
      security: [{ session: [] }],
    },
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(swaggerUi, {
    routePrefix: '/api/docs',
    staticCSP: false,
    uiConfig: { docExpansion: 'none', tryItOutEnabled: false },
    theme: { title: 'Crosshatch API' },
  });
  app.get('/api/openapi.json', { config: { right: 'public' }, schema: { hide: true } }, async () => app.swagger());
}
