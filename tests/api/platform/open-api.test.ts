import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openShop, type Shop } from '../../support/shop.ts';

interface Operation {
  readonly summary?: string;
  readonly tags?: readonly string[];
  readonly requestBody?: {
    readonly content: Readonly<
      Record<string, { readonly schema: Schema; readonly example?: unknown; readonly examples?: unknown }>
    >;
  };
  readonly responses: Readonly<
    Record<
      string,
      { readonly content?: Readonly<Record<string, { readonly schema: Schema; readonly example?: unknown }>> }
    >
  >;
}
interface Schema {
  readonly $ref?: string;
  readonly examples?: readonly unknown[];
}
interface Document {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Schema>> };
}

let shop: Shop;
let document: Document;
beforeAll(async () => {
  shop = await openShop();
  document = (await shop.app.inject('/api/openapi.json')).json();
});
afterAll(() => shop.close());

const operations = () =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ name: `${method} ${path}`, operation })),
  );
const resolved = (schema: Schema | undefined): Schema | undefined =>
  schema?.$ref === undefined ? schema : document.components.schemas[schema.$ref.split('/').at(-1) ?? ''];

describe('the OpenAPI document', () => {
  test('is 3.1 and names every operation with a summary and a tag', () => {
    expect(document.openapi).toBe('3.1.0');
    expect(operations().length).toBeGreaterThan(80);
    const bare = operations().filter(({ operation }) => !operation.summary || !operation.tags?.length);
    expect(bare.map(({ name }) => name)).toEqual([]);
  });

  test('gives an example of every body', () => {
    const without = operations().filter(({ operation }) => {
      const [content] = Object.values(operation.requestBody?.content ?? {});
      if (content === undefined || content.example !== undefined || content.examples !== undefined) return false;
      return !resolved(content.schema)?.examples?.length;
    });
    expect(without.map(({ name }) => name)).toEqual([]);
  });

  test('gives every reply an example that was really answered and still fits its contract', () => {
    const ajv = new Ajv2020({ strict: false });
    addFormats.default(ajv);
    ajv.addSchema({ $id: 'api', components: document.components });
    const faults = operations().flatMap(({ name, operation }) => {
      const content = Object.entries(operation.responses).find(([status]) => status.startsWith('2'))?.[1].content?.[
        'application/json'
      ];
      if (content === undefined || name === 'delete /api/session') return [];
      if (content.example === undefined) return [`${name}: no example; run npm run api-examples`];
      const schema = JSON.parse(JSON.stringify(content.schema).replaceAll('"#/components', '"api#/components'));
      const validate = ajv.compile(schema);
      return validate(content.example) ? [] : [`${name}: ${ajv.errorsText(validate.errors)}`];
    });
    expect(faults).toEqual([]);
  });

  test('tells every refusal as problem details', () => {
    const otherwise = operations().flatMap(({ name, operation }) =>
      Object.entries(operation.responses)
        .filter(([status, { content }]) => Number(status) >= 400 && content?.['application/problem+json'] === undefined)
        .map(([status]) => `${name} ${status}`),
    );
    expect(otherwise).toEqual([]);
  });

  test('its page is served and loads nothing from elsewhere', async () => {
    const page = await shop.app.inject('/api/docs');
    expect(page.statusCode).toBe(200);
    expect(page.body).not.toMatch(/(src|href)="https?:/);
  });
});

describe('what every route shares', () => {
  test('malformed JSON, a body too large and an unknown address are told in words', async () => {
    const bad = await shop.app.inject({
      method: 'POST',
      url: '/api/session',
      headers: { 'content-type': 'application/json' },
      payload: '{"pin"',
    });
    expect(bad.json()).toMatchObject({ status: 400, type: 'urn:crosshatch:problem:malformed-json' });
    const large = await shop.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { pin: 'x'.repeat(2_000_000) },
    });
    expect(large.json()).toMatchObject({ status: 413, type: 'urn:crosshatch:problem:too-big' });
    const nowhere = await shop.as.writer.get('/api/nothing-here');
    expect(nowhere).toMatchObject({ status: 404, body: { type: 'urn:crosshatch:problem:not-found' } });
  });

  test('a write without a key, with a used key, or from another site is refused', async () => {
    const body = { readyOn: '2026-12-04', sureOf5: 4 };
    const none = await shop.as.writer.post('/api/jobs/019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b/promises', body, {
      'idempotency-key': '',
    });
    expect(none).toMatchObject({ status: 400, body: { type: 'urn:crosshatch:problem:idempotency-key-missing' } });
    const foreign = await shop.as.writer.post('/api/vendors', { name: 'x' }, { origin: 'https://elsewhere.example' });
    expect(foreign).toMatchObject({ status: 403, body: { type: 'urn:crosshatch:problem:foreign-origin' } });
  });

  test('nobody signed in sees nothing, and pages carry a strict content policy', async () => {
    expect((await shop.app.inject('/api/floor')).statusCode).toBe(401);
    const policy = (await shop.app.inject('/healthz')).headers['content-security-policy'];
    expect(policy).toContain("default-src 'self'");
    // Compiling our own WebAssembly is allowed; inline sources and eval are not (docs/decisions).
    expect(String(policy).replace("'wasm-unsafe-eval'", '')).not.toContain('unsafe');
  });

  test('an unknown id is a 404 that says what was looked for, an id of the wrong form a 400', async () => {
    const missing = await shop.as.writer.get('/api/jobs/019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b');
    expect(missing).toMatchObject({ status: 404, body: { detail: 'There is no such job.' } });
    expect((await shop.as.writer.get('/api/jobs/12')).status).toBe(400);
  });

  test('it says whether it lives and whether it can serve', async () => {
    expect((await shop.app.inject('/healthz')).json()).toEqual({ alive: true });
    expect((await shop.app.inject('/readyz')).json()).toEqual({ ready: true });
  });
});
