import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { lead, technician } = shop.as;
const family = `/api/families/${shop.sheet.familyId}`;
const example = sheetExample as SpecSheetDocument;

/** Whatever draft a test left behind is discarded. */
beforeEach(async () => {
  const { body } = await lead.get(`${family}/spec-revisions`);
  const draft = body.items.find(({ publishedAt }: { publishedAt: string | null }) => publishedAt === null);
  if (draft !== undefined) await lead.remove(`/api/spec-revisions/${draft.id}`, { 'if-match': `"${draft.version}"` });
});

const drafted = async (begin: object = { copyOf: shop.sheet.revisionId }) => {
  const { status, body, headers } = await lead.post(`${family}/spec-revisions`, begin);
  expect(status, JSON.stringify(body)).toBe(201);
  expect(headers.etag).toBe(`"${body.version}"`);
  return { url: `/api/spec-revisions/${body.id}`, id: body.id, number: body.number, tag: `"${body.version}"` };
};
const sheetOf = async (url: string): Promise<SpecSheetDocument> => {
  const { status, body } = await lead.get(`${url}/sheet.json`);
  expect(status, JSON.stringify(body)).toBe(200);
  return body;
};

describe('a family', () => {
  const rimfell = {
    code: 'R510',
    name: 'Rimfell 510',
    cycle: 'four-stroke',
    cooling: 'water',
    bore: { value: '95.0', unit: 'mm' },
    stroke: { value: '72.0', unit: 'mm' },
  };

  test('is added once, by a lead, and takes engines in once its sheet is published', async () => {
    expect((await technician.post('/api/families', rimfell)).status).toBe(403);
    const { status, body } = await lead.post('/api/families', rimfell);
    expect(status).toBe(201);
    expect((await lead.post('/api/families', rimfell)).body.detail).toContain('code is known already');
    const { body: listed } = await technician.get(`/api/families/${body.id}/spec-revisions`);
    expect(listed).toEqual({ family: { id: body.id, code: 'R510', name: 'Rimfell 510' }, items: [] });

    const engine = {
      engine: { serial: 'R510-1', familyId: body.id },
      owner: { name: 'Ingrid Falk', contact: '' },
      hours: '10',
      complaint: 'Smokes',
      bayId: shop.bays.rack,
    };
    const refused = await shop.as.writer.post('/api/jobs', engine);
    expect(refused.body.detail).toContain('no published spec sheet');
    const draft = await lead.post(`/api/families/${body.id}/spec-revisions`, {
      document: { ...example, family: { code: 'R510', name: 'Rimfell 510' } },
    });
    expect(draft.status, JSON.stringify(draft.body)).toBe(201);
    await lead.post(`/api/spec-revisions/${draft.body.id}/publish`, undefined, {
      'if-match': `"${draft.body.version}"`,
    });
    expect((await shop.as.writer.post('/api/jobs', engine)).status).toBe(201);
  });

  test('with a bore of nothing is refused, with the field named', async () => {
    const { status, body } = await lead.post('/api/families', {
      ...rimfell,
      code: 'R511',
      name: 'Rimfell 511',
      bore: { value: '0', unit: 'mm' },
    });
    expect(status).toBe(422);
    expect(body.errors).toEqual([{ pointer: '/bore/value', detail: 'The bore must be above nothing.' }]);
  });
});

describe('a draft', () => {
  test('copied from a revision says the same in every figure', async () => {
    const { id, number, url } = await drafted();
    expect(number).toBe(2);
    const { body } = await technician.get(`${url}/changes?since=${shop.sheet.revisionId}`);
    expect(body).toEqual({ from: { id: shop.sheet.revisionId, number: 1 }, to: { id, number: 2 }, items: [] });
    const [one, other] = await Promise.all([
      technician.get(`/api/spec-revisions/${shop.sheet.revisionId}`),
      technician.get(url),
    ]);
    expect(other.body.dimensions.map(({ limits }: { limits: unknown }) => limits)).toEqual(
      one.body.dimensions.map(({ code, limits }: { code: string; limits: unknown }) =>
        code === 'big-end-play' ? other.body.dimensions.at(-1).limits : limits,
      ),
    );
    expect(other.body.places).toEqual(one.body.places);
  });

  test('is one at a time in a family, and a lead’s to begin', async () => {
    expect((await technician.post(`${family}/spec-revisions`, {})).status).toBe(403);
    await drafted();
    const { status, body } = await lead.post(`${family}/spec-revisions`, {});
    expect(status).toBe(409);
    expect(body.detail).toContain('Revision 2 of Halden 355 is a draft already');
  });

  test('begun twice at once is begun once', async () => {
    const answers = await Promise.all([1, 2, 3].map(() => lead.post(`${family}/spec-revisions`, {})));
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409, 409]);
  });

  test('takes a document, and gives it back to the digit, in the units of its source', async () => {
    const { url, tag } = await drafted();
    const { status, body, headers } = await lead.put(`${url}/sheet.json`, example, { 'if-match': tag });
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body).toMatchObject({ dimensions: 5, figures: 12 });
    const back = await technician.get(`${url}/sheet.json`);
    expect(back.body).toEqual(example);
    expect(back.headers.etag).toBe(headers.etag);
    expect(back.headers['content-disposition']).toBe('attachment; filename="spec-sheet-H355-2.json"');
    const sheet = await technician.get(url);
    const spring = sheet.body.dimensions.find(({ code }: { code: string }) => code === 'clutch-spring');
    expect(spring.limits[0].service.low).toEqual({ value: '1.580', unit: 'in' });
    expect(sheet.body).toMatchObject({ note: 'Clutch spring added', ringSeparation: { value: '90', unit: 'deg' } });
    expect(sheet.body.fasteners[0].stages).toHaveLength(2);
    expect(sheet.body.valves[0]).toMatchObject({ code: 'intake-left', wanted: { value: '0.13', unit: 'mm' } });
    expect(sheet.body.proofs).toHaveLength(1);
  });

  test('is not overwritten by somebody who read an older one, or none', async () => {
    const { url, tag } = await drafted();
    expect((await lead.put(`${url}/sheet.json`, example)).status).toBe(428);
    expect((await lead.put(`${url}/sheet.json`, example, { 'if-match': tag })).status).toBe(200);
    const late = await lead.put(`${url}/sheet.json`, { ...example, note: 'late' }, { 'if-match': tag });
    expect(late.status).toBe(412);
    expect((await sheetOf(url)).note).toBe('Clutch spring added');
    expect((await lead.post(`${url}/publish`, undefined, { 'if-match': tag })).status).toBe(412);
    expect((await lead.remove(url, { 'if-match': tag })).status).toBe(412);
  });

  test('with faults is refused whole, each named by its pointer', async () => {
    const { url, tag } = await drafted();
    const before = await sheetOf(url);
    const [bore, piston, clearance, ...others] = example.dimensions;
    if (bore === undefined || piston === undefined || clearance === undefined) throw new Error('three');
    const wrong = {
      ...example,
      dimensions: [
        { ...bore, unit: 'kPa' },
        { ...piston, code: 'bore' },
        { ...clearance, subtrahend: 'none' },
        ...others,
      ],
    };
    const { status, body } = await lead.put(`${url}/sheet.json`, wrong, { 'if-match': tag });
    expect(status).toBe(422);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/dimensions/1/code',
      '/dimensions/0/unit',
      '/dimensions/2/subtrahend',
    ]);
    expect(body.detail).toContain('nothing was kept');
    expect(await sheetOf(url)).toEqual(before);
    const { body: bench } = await technician.post('/api/bench/spec-sheet', wrong);
    expect(bench.faults).toEqual(body.errors);
    expect((await technician.post('/api/bench/spec-sheet', example)).body).toEqual({ faults: [], notes: [] });
  });

  test('of another family is refused', async () => {
    const { url, tag } = await drafted();
    const { status, body } = await lead.put(
      `${url}/sheet.json`,
      { ...example, family: { code: 'O125', name: 'Ostrel' } },
      { 'if-match': tag },
    );
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/family/code');
  });

  test('in a shape that is not ours is refused with what is missing', async () => {
    const { url, tag } = await drafted();
    const { status, body } = await lead.put(`${url}/sheet.json`, { ...example, shape: 2 }, { 'if-match': tag });
    expect(status).toBe(400);
    expect(body.errors[0].pointer).toBe('/shape');
  });

  test('discarded is gone, and its number is free', async () => {
    const { url, tag } = await drafted();
    expect((await technician.remove(url, { 'if-match': tag })).status).toBe(403);
    expect((await lead.remove(url, { 'if-match': tag })).body).toEqual({ number: 2 });
    expect((await technician.get(url)).status).toBe(404);
    expect((await drafted()).number).toBe(2);
  });

  test('sent twice with one key is kept once', async () => {
    const { url, tag } = await drafted();
    const headers = { 'if-match': tag, 'idempotency-key': crypto.randomUUID() };
    const [first, second] = [
      await lead.put(`${url}/sheet.json`, example, headers),
      await lead.put(`${url}/sheet.json`, example, headers),
    ];
    expect(second.status).toBe(200);
    expect(second.body).toEqual(first.body);
    expect(second.headers.etag).toBe(first.headers.etag);
  });
});

describe('published', () => {
  test('an empty sheet is refused', async () => {
    const { url, tag } = await drafted({});
    const { status, body } = await lead.post(`${url}/publish`, undefined, { 'if-match': tag });
    expect(status).toBe(422);
    expect(body.detail).toContain('measures nothing');
  });

  test('a revision binds the engines taken in from then on, and changes neither itself nor a job on an older one', async () => {
    const old = await takeIn(shop, { serial: 'P-1' });
    const { id, url, tag, number } = await drafted({ document: example });
    expect((await technician.post(`${url}/publish`, undefined, { 'if-match': tag })).status).toBe(403);
    expect((await lead.post(`${url}/publish`)).status).toBe(428);
    const { status, body } = await lead.post(`${url}/publish`, undefined, { 'if-match': tag });
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.number).toBe(number);
    const young = await takeIn(shop, { serial: 'P-2' });
    expect((await technician.get(`/api/jobs/${old.jobId}`)).body.revisionId).toBe(shop.sheet.revisionId);
    expect((await technician.get(`/api/jobs/${young.jobId}`)).body.revisionId).toBe(id);
    const { body: jobs } = await technician.get(`${url}/jobs`);
    expect(jobs.items).toEqual([
      { id: young.jobId, number: young.number, engineId: young.engineId, serial: 'P-2', handedBackAt: null },
    ]);
    const { body: revisions } = await technician.get(`${family}/spec-revisions`);
    expect(revisions.items[0]).toMatchObject({
      id,
      publishedBy: { name: 'Maren Tolk' },
      draftedBy: { name: 'Maren Tolk' },
      openJobs: 1,
      jobs: 1,
      dimensions: 5,
    });
    for (const refused of [
      await lead.put(`${url}/sheet.json`, example, { 'if-match': tag }),
      await lead.post(`${url}/publish`, undefined, { 'if-match': tag }),
      await lead.remove(url, { 'if-match': tag }),
    ]) {
      expect(refused.status).toBe(409);
      expect(refused.body.detail).toContain('never changes');
    }
    const kinds = await shop.sql<
      { kind: string }[]
    >`select kind from event where kind like 'spec.%' order by recorded_at desc limit 2`;
    expect(kinds.map(({ kind }) => kind)).toEqual(['spec.published', 'spec.drafted']);
  });
});

test('two revisions are told apart figure by figure', async () => {
  const { url, tag } = await drafted();
  const before = await sheetOf(url);
  const [bore, ...others] = before.dimensions;
  if (bore === undefined) throw new Error('no bore');
  const [standard, ...more] = bore.limits;
  if (standard === undefined) throw new Error('no limits');
  const limits = [
    { ...standard, service: { low: null, high: { value: '88.045', unit: 'mm', page: 'p. 3' } } },
    ...more,
  ];
  await lead.put(
    `${url}/sheet.json`,
    { ...before, dimensions: [{ ...bore, limits }, ...others.slice(0, -1)] },
    { 'if-match': tag },
  );
  const { body } = await technician.get(`${url}/changes?since=${shop.sheet.revisionId}`);
  expect(body.items.slice(0, 2)).toMatchObject([
    { kind: 'changed', code: 'bore', sizeClass: 'standard', field: 'service high', from: '88.050 mm', to: '88.045 mm' },
    { kind: 'added', field: 'service high, page', to: 'p. 3' },
  ]);
  expect(body.items.slice(2)[0]).toMatchObject({ kind: 'removed', code: 'big-end-play', field: '' });
});

test('what nobody has is not found', async () => {
  const nothing = newId();
  for (const path of ['sheet.json', 'sheet.csv', 'jobs', `changes?since=${shop.sheet.revisionId}`])
    expect((await technician.get(`/api/spec-revisions/${nothing}/${path}`)).status).toBe(404);
  expect((await technician.get(`/api/families/${nothing}/spec-revisions`)).status).toBe(404);
  expect((await lead.post(`/api/families/${nothing}/spec-revisions`, {})).status).toBe(404);
});
