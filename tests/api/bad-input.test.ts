import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { insertInstruments } from '../support/measuring.ts';
import { insertStrip } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart, demand } from '../support/stores.ts';

/** Every route of the API is sent what no client should send. A refusal says why; no server error and no half answer. */

interface Schema {
  readonly $ref?: string;
  readonly examples?: readonly unknown[];
}
interface Operation {
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: Schema }>> };
  readonly parameters?: readonly { readonly name: string; readonly in: string }[];
}
interface Document {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Schema>> };
}
type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };

let shop: Shop;
let document: Document;
/** Ids that exist, by the name under which bodies and paths ask for them. */
let known: Readonly<Record<string, string>>;

beforeAll(async () => {
  shop = await openShop();
  document = (await shop.app.inject('/api/openapi.json')).json();
  known = await filledShop();
});
afterAll(() => shop.close());

/** A job that is open, with a tray, an offer, an obligation, a demand, stock and a quote: so that requests get far. */
async function filledShop(): Promise<Readonly<Record<string, string>>> {
  const { technician, lead, writer } = shop.as;
  await insertInstruments(shop.sql, shop.people.lead);
  const strip = await insertStrip(shop.sql, shop.sheet.familyId);
  const { jobId, engineId } = await takeIn(shop, { serial: 'H355-666' });
  const post = async (as: typeof lead, url: string, body?: object) => {
    const answer = await as.post(url, body);
    expect(answer.status, `${url}: ${JSON.stringify(answer.body)}`).toBeLessThan(300);
    return answer.body;
  };
  await post(lead, `/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const opening = await post(lead, `/api/jobs/${jobId}/openings`);
  const tray = await post(lead, `/api/jobs/${jobId}/trays`, { name: 'Dowels' });
  const off = await post(lead, `/api/openings/${opening.id}/pieces/off`, {
    pieces: [{ byHand: { name: 'dowel', expected: 3 }, count: 2 }],
    trayId: tray.id,
  });
  const run = await post(lead, `/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const part = await addPart(shop.sql, { priceMinor: 100 });
  const bin = await addBin(shop.sql);
  const lotId = await addLot(shop, { partId: part.id, quantity: 5, binId: bin.id });
  const kitId = await addKit(shop, [[part.id, 1]]);
  const lines = await demand(shop, jobId, [[part.id, 2]]);
  await post(technician, `/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  const price = { minor: '100', currency: 'EUR' };
  const quote = await post(writer, `/api/jobs/${jobId}/quotes`, {
    lines: [{ kind: 'labour', words: 'Strip', quantity: 1, each: price }],
  });
  const offer = await post(lead, `/api/jobs/${jobId}/handovers`, {
    receiverId: shop.people.technician,
    placeId: shop.bays.rack,
    includeEngine: true,
    trayIds: [],
  });
  return {
    jobId,
    engineId,
    openingId: opening.id,
    trayId: tray.id,
    pieceId: off.pieces[0].id,
    obligationId: off.obligationsOpened[0],
    runId: run.id,
    stepId: Object.values(strip.steps)[0] ?? '',
    versionId: strip.versionId,
    partId: part.id,
    binId: bin.id,
    toBinId: bin.id,
    lotId,
    kitId,
    demandLineId: lines.get(part.id) ?? '',
    quoteId: quote.id,
    handoverId: offer.id,
    vendorId: shop.vendorId,
    familyId: shop.sheet.familyId,
    bayId: shop.bays.rack,
    toBayId: shop.bays.rack,
    placeId: shop.bays.rack,
    personId: shop.people.technician,
    receiverId: shop.people.technician,
  };
}

/** What `:id` stands for, by the collection before it. */
const ofCollection: Readonly<Record<string, string>> = {
  jobs: 'jobId',
  engines: 'engineId',
  openings: 'openingId',
  obligations: 'obligationId',
  'procedure-runs': 'runId',
  'procedure-versions': 'versionId',
  parts: 'partId',
  'demand-lines': 'demandLineId',
  quotes: 'quoteId',
  handovers: 'handoverId',
};

const addressOf = (path: string, id?: string): string =>
  path.replaceAll(/([\w-]+)\/\{(\w+)\}/g, (_, collection: string, name: string) => {
    const there = known[name] ?? known[ofCollection[collection] ?? ''];
    return `${collection}/${encodeURIComponent(id ?? there ?? crypto.randomUUID())}`;
  });

const badTexts = [
  '',
  ' ',
  '\u0000',
  '\ud800',
  '\u202e🏍️𝄞',
  "'; drop table engine; --",
  '%_\\',
  '-1',
  '1e400',
  '2026-02-30',
  '9999-12-31',
  '0000-01-01',
  '999999-01-01T00:00:00Z',
  'x'.repeat(20_000),
] as const;
const badValues: readonly Json[] = [null, true, -1, 0, 0.5, 1e15, 2_147_483_648, 1e300, [], {}, [null], ...badTexts];

/** The value with each of its leaves (and lists) in turn replaced by something bad; ids that exist put in by name. */
function* spoiled(value: Json, name = ''): Generator<Json> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
    const entries = Object.entries(value);
    for (const [key, inner] of entries) {
      for (const bad of spoiled(inner, key)) yield { ...value, [key]: bad };
      yield Object.fromEntries(entries.filter(([other]) => other !== key));
    }
    yield { ...value, surplus: 1 };
    return;
  }
  if (Array.isArray(value)) {
    const [first] = value;
    if (first !== undefined) {
      for (const bad of spoiled(first, name)) yield [bad];
      yield Array.from({ length: 3000 }, () => first);
      yield [first, first];
    }
  }
  yield* badValues;
}

/** Of a body with many leaves every so manieth spoiling: each leaf is met still, by other bad values than its neighbours. */
const MOST_SPOILED = 150;
function sampled(all: readonly Json[]): readonly Json[] {
  const stride = Math.ceil(all.length / MOST_SPOILED);
  return all.filter((_, index) => index % stride === 0);
}

const withKnownIds = (value: Json, name = ''): Json => {
  if (Array.isArray(value)) return value.map((inner) => withKnownIds(inner, name.replace(/s$/, '')));
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, withKnownIds(inner, key)]));
  }
  return known[name] ?? value;
};

function examplesOf(operation: Operation): readonly Json[] {
  const schema = operation.requestBody?.content['application/json']?.schema;
  const whole = schema?.$ref === undefined ? schema : document.components.schemas[schema.$ref.split('/').at(-1) ?? ''];
  return (whole?.examples ?? []) as readonly Json[];
}

const faulty: string[] = [];
async function send(method: string, url: string, body?: Json): Promise<void> {
  const as = shop.as.lead;
  const answer =
    method === 'get'
      ? await as.get(url)
      : await as[method === 'patch' ? 'patch' : 'post'](url, body as object, { 'if-match': '"1"' });
  if (answer.status >= 500) {
    faulty.push(`${method} ${url.slice(0, 200)} ${JSON.stringify(body)?.slice(0, 300)}: ${answer.status}`);
  }
}

/** A few at a time, as a shop's terminals would. */
async function sendAll(sends: readonly (() => Promise<void>)[]): Promise<void> {
  const left = [...sends];
  const terminal = async (): Promise<void> => {
    for (let next = left.pop(); next !== undefined; next = left.pop()) await next();
  };
  await Promise.all(Array.from({ length: 4 }, terminal));
}

const routes = (methods: readonly string[]) =>
  Object.entries(document.paths).flatMap(([path, operations]) =>
    Object.entries(operations)
      .filter(([method]) => methods.includes(method) && path !== '/api/session')
      .map(([method, operation]) => ({ path, method, operation })),
  );

type Node = Readonly<Record<string, unknown>>;
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

/** Where a body's schema takes a list or a text of any length, or a number of any size. */
function unlimited(schema: unknown, at: string): readonly string[] {
  if (!isNode(schema)) return [];
  if (typeof schema.$ref === 'string')
    return unlimited(document.components.schemas[schema.$ref.split('/').at(-1) ?? ''], at);
  const parts = [schema.anyOf, schema.oneOf, schema.allOf].flatMap((each) => (Array.isArray(each) ? each : []));
  const inner = parts.flatMap((part) => unlimited(part, at));
  const properties = isNode(schema.properties) ? Object.entries(schema.properties) : [];
  const fixed = schema.enum !== undefined || schema.const !== undefined || schema.format !== undefined;
  const faults = {
    array: schema.maxItems === undefined,
    string: !fixed && schema.maxLength === undefined && !String(schema.pattern ?? '').endsWith('$'),
    integer: schema.maximum === undefined || schema.minimum === undefined,
    number: schema.maximum === undefined || schema.minimum === undefined,
  };
  const fault = Object.entries(faults).some(([type, found]) => schema.type === type && found) && !fixed;
  return [
    ...inner,
    ...properties.flatMap(([name, property]) => unlimited(property, `${at}/${name}`)),
    ...unlimited(schema.items, `${at}/*`),
    ...(fault ? [`${at} (${String(schema.type)})`] : []),
  ];
}

test('every list, text and number of a body has a limit', () => {
  expect(unlimited({ type: 'array', items: { type: 'string' } }, 'seen')).toEqual(['seen/* (string)', 'seen (array)']);
  const bodies = routes(['post', 'patch']).flatMap(({ path, method, operation }) => {
    const schema = operation.requestBody?.content['application/json']?.schema;
    return schema === undefined ? [] : [{ at: `${method} ${path}`, schema }];
  });
  expect(bodies.length).toBeGreaterThan(40);
  expect(bodies.flatMap(({ at, schema }) => unlimited(schema, at))).toEqual([]);
});

describe('what no client should send', () => {
  test('in a body: wrong types, ids of nothing, below zero, huge, odd characters', { timeout: 600_000 }, async () => {
    faulty.length = 0;
    for (const { path, method, operation } of routes(['post', 'patch'])) {
      for (const example of examplesOf(operation)) {
        const fitting = withKnownIds(example);
        await sendAll(sampled([...spoiled(fitting)]).map((body) => () => send(method, addressOf(path), body)));
        await send(method, addressOf(path), fitting);
      }
    }
    expect([...new Set(faulty)]).toEqual([]);
  });

  test('in a file of readings', async () => {
    const header = 'round;dimension;position;value;unit;instrument';
    const files = [
      ...badTexts,
      `${header}\r\n${badTexts.map((bad) => [bad, bad, bad, bad, bad, bad].join(';')).join('\r\n')}`,
      `${header}\nas received;bore;A-across;88.0\u000048;mm;BG-2`,
      `${header}\nas received;bore;A-across;"88.048;mm;BG-2`,
      `${header};${header}\n`,
      `${header}\n${'as received;bore;A-across;88.048;mm;BG-2\n'.repeat(6000)}`,
    ];
    for (const payload of files) {
      const { token } = await startSession(shop.sql, { personId: shop.people.lead, terminalId: undefined });
      const { statusCode, body } = await shop.app.inject({
        method: 'POST',
        url: `/api/jobs/${known.jobId}/readings/import`,
        payload,
        headers: { 'content-type': 'text/csv', 'idempotency-key': crypto.randomUUID() },
        cookies: { [SESSION_COOKIE]: token },
      });
      expect(statusCode, `${payload.slice(0, 80)}: ${body.slice(0, 200)}`).toBeGreaterThanOrEqual(400);
      expect(statusCode, `${payload.slice(0, 80)}: ${body.slice(0, 200)}`).toBeLessThan(500);
    }
  });

  test('in an address: ids that are none, of nothing, and queries of any form', { timeout: 600_000 }, async () => {
    faulty.length = 0;
    for (const { path, method, operation } of routes(['get', 'post', 'patch'])) {
      const [example] = examplesOf(operation);
      const body = example === undefined ? undefined : withKnownIds(example);
      if (path.includes('{')) {
        for (const id of [
          '1',
          'null',
          "' or 1=1",
          '\u0000',
          crypto.randomUUID(),
          '00000000-0000-0000-0000-000000000000',
        ]) {
          await send(method, addressOf(path, id), body);
        }
      }
      for (const { name, in: where } of operation.parameters ?? []) {
        if (where !== 'query' || method !== 'get') continue;
        for (const bad of badTexts.filter((each) => each !== '\ud800')) {
          await send(method, `${addressOf(path)}?${name}=${encodeURIComponent(bad)}`);
        }
        await send(method, `${addressOf(path)}?${name}=1&${name}=2`);
        await send(method, `${addressOf(path)}?${name}=%ff`);
      }
    }
    expect([...new Set(faulty)]).toEqual([]);
  });
});
