/**
 * `npm run api-examples`: walks an engine through a demo shop of its own, keeps one real reply of every operation, and
 * writes them, shortened, where the OpenAPI page takes its examples from. A test holds them against the contracts.
 */
import { writeFileSync } from 'node:fs';
import { openBenchShop } from '../tests/bench/bench-shop.ts';
import { moreActs } from './api-more-acts.ts';
import { walkThrough } from './walk/walk.ts';

const FILE = 'server/platform/http/reply-examples.json';
const MOST_ITEMS = 2;

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** Long lists are cut: an example shows the form, not the shop. */
function shortened(value: Json): Json {
  if (Array.isArray(value)) return value.slice(0, MOST_ITEMS).map(shortened);
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shortened(inner as Json)]));
  }
  return value;
}

const shop = await openBenchShop();
const templates: readonly (readonly [template: string, methods: readonly string[]])[] = await fetch(
  `${shop.address}/api/openapi.json`,
)
  .then((reply) => reply.json() as Promise<{ paths: Record<string, Record<string, unknown>> }>)
  .then(({ paths }) => Object.entries(paths).map(([template, methods]) => [template, Object.keys(methods)] as const));
const examples = new Map<string, Json>();
const values = new Map<string, string>();

const patternOf = (template: string): RegExp => new RegExp(`^${template.replace(/\{\w+\}/g, '([^/]+)')}$`);

/** Keeps a reply as the example of its operation, and the ids in its address for the reads that follow. */
function keep(method: string, path: string, reply: Json): void {
  const known = templates
    .filter(([template]) => patternOf(template).test(path))
    .sort(([a], [b]) => a.split('{').length - b.split('{').length)[0];
  if (known === undefined) return;
  const [template] = known;
  const ids = patternOf(template).exec(path)?.slice(1) ?? [];
  const prefix = template.split('/').slice(0, 3).join('/');
  if (ids[0] !== undefined) values.set(prefix, ids[0]);
  const size = JSON.stringify(reply).length;
  const name = `${method.toLowerCase()} ${template}`;
  const before = examples.get(name);
  // Of several the fullest, so that no list of an example is empty that need not be.
  if (before === undefined || JSON.stringify(before).length < Math.min(size, 20_000))
    examples.set(name, shortened(reply));
}

/** The first example that the document gives of an operation's body. */
async function bodyExample(template: string): Promise<Json | undefined> {
  const { paths, components } = (await (await plainFetch(`${shop.address}/api/openapi.json`)).json()) as {
    paths: Record<
      string,
      Record<string, { requestBody?: { content: Record<string, { schema: { $ref?: string; examples?: Json[] } }> } }>
    >;
    components: { schemas: Record<string, { examples?: Json[] }> };
  };
  const schema = Object.values(paths[template]?.post?.requestBody?.content ?? {})[0]?.schema;
  const named = schema?.$ref === undefined ? schema : components.schemas[schema.$ref.split('/').at(-1) ?? ''];
  return named?.examples?.[0];
}

const plainFetch = globalThis.fetch;
globalThis.fetch = async (input, init) => {
  const reply = await plainFetch(input, init);
  const { pathname } = new URL(String(input));
  if (reply.ok && reply.headers.get('content-type')?.includes('json')) {
    keep(init?.method ?? 'GET', pathname, (await reply.clone().json()) as Json);
  }
  return reply;
};

const job = await walkThrough(shop.address);
values.set('/api/jobs', job.jobId).set('/api/engines', job.engineId);
await moreActs(shop.address);
for (const [template, methods] of templates) {
  const body = (await bodyExample(template)) ?? undefined;
  if (!methods.includes('post') || !template.startsWith('/api/bench/') || body === undefined) continue;
  await fetch(`${shop.address}${template}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}
for (const [template, methods] of templates) {
  if (!methods.includes('get') || examples.has(`get ${template}`)) continue;
  const id = values.get(template.split('/').slice(0, 3).join('/'));
  if (template.includes('{') && id === undefined) continue;
  await shop
    .get(template.replace('/api', '').replace(/\{\w+\}/, id ?? ''))
    .catch((error: Error) => console.log(error.message));
}
globalThis.fetch = plainFetch;
await shop.close();
const sorted = Object.fromEntries([...examples].toSorted(([a], [b]) => (a < b ? -1 : 1)));
writeFileSync(FILE, `${JSON.stringify(sorted, null, 1)}\n`);
const missing = templates
  .flatMap(([template, methods]) => methods.map((method) => `${method} ${template}`))
  .filter((name) => !examples.has(name));
console.log(`\n${examples.size} replies written to ${FILE}; none for ${missing.length}: ${missing.join(', ')}`);
