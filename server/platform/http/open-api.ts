import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { apiPageLook } from './api-page-look.ts';
import replyExamples from './reply-examples.json' with { type: 'json' };

const examples: ReadonlyMap<string, unknown> = new Map(Object.entries(replyExamples));

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
    transformObject: (document) => withReplyExamples(jsonSchemaTransformObject(document)),
  });
  await app.register(swaggerUi, {
    routePrefix: '/api/docs',
    // The page styles itself in place; nowhere else is that allowed.
    staticCSP:
      "default-src 'self'; base-uri 'none'; object-src 'none'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; frame-ancestors 'none'",
    uiConfig: { docExpansion: 'none', tryItOutEnabled: false },
    theme: {
      title: 'Crosshatch API',
      css: [{ filename: 'crosshatch.css', content: apiPageLook }],
    },
  });
  app.get('/api/openapi.json', { config: { right: 'public' }, schema: { hide: true } }, async () => app.swagger());
}

interface Operations {
  readonly paths?: Readonly<
    Record<string, Readonly<Record<string, { readonly responses?: Readonly<Record<string, Reply>> }>>>
  >;
}
interface Reply {
  readonly content?: Readonly<Record<string, { example?: unknown }>>;
}

/** Gives each operation the reply that was really answered once (`npm run api-examples`), so that a reader sees its form. */
function withReplyExamples<Document extends object>(document: Document): Document {
  const { paths = {} } = document as Operations;
  for (const [path, methods] of Object.entries(paths)) {
    for (const [method, { responses = {} }] of Object.entries(methods)) {
      const example = examples.get(`${method} ${path}`);
      const content = Object.entries(responses).find(([status]) => status.startsWith('2'))?.[1].content?.[
        'application/json'
      ];
      if (example !== undefined && content !== undefined) content.example = example;
    }
  }
  return document;
}
