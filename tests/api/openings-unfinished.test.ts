import { afterAll, beforeAll, expect, test } from 'vitest';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
let build: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  const { familyId } = shop.sheet;
  const steps = ['one', 'two', 'three'];
  strip = await insertProcedure(shop.sql, {
    ...{ familyId, code: 'Strip it', kind: 'strip' },
    steps: steps.map((title) => ({ title: `Off, ${title}` })),
  });
  build = await insertProcedure(shop.sql, {
    ...{ familyId, code: 'Build it', kind: 'assemble' },
    steps: steps.map((title) => ({ title: `On, ${title}` })),
  });
});
afterAll(() => shop.close());

async function opened(serial: string, of: WrittenProcedure) {
  const as = shop.as.technician;
  const { jobId } = await takeIn(shop, { serial });
  const runId: string = (await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: of.versionId })).body.id;
  const open = async (): Promise<string> => (await as.post(`/api/jobs/${jobId}/openings`)).body.id;
  const mark = async (title: string, body: object = { mark: 'done' }) => {
    const { status } = await as.post(`/api/procedure-runs/${runId}/steps/${of.steps[title]}/mark`, body);
    expect(status).toBe(200);
  };
  const against = async (openingId: string) => {
    const { body } = await as.get(`/api/openings/${openingId}/closing`);
    return body.reasons;
  };
  return { as, jobId, runId, open, mark, against };
}
const at = (jobId: string, stepId: string | undefined) => `/bench/${jobId}/procedure?step=${stepId}`;

test('a strip that ends where it is deep enough keeps no engine open; one left in the middle does until it is resumed', async () => {
  const { as, jobId, runId, open, mark, against } = await opened('H355-LEFT', strip);
  const openingId = await open();
  await mark('Off, one');
  expect(await against(openingId)).toEqual([]);
  await as.post(`/api/procedure-runs/${runId}/interrupt`, {
    stepId: strip.steps['Off, two'],
    why: 'called to a delivery',
    loose: 'two cam caps loosened.',
  });
  const words = 'Strip it was left at step 2, Off, two. Loose or half done: two cam caps loosened. Read it and resume.';
  expect(await against(openingId)).toEqual([
    {
      kind: 'procedure-left',
      words,
      subject: strip.steps['Off, two'],
      count: null,
      href: at(jobId, strip.steps['Off, two']),
    },
  ]);
  const refused = await as.post(`/api/openings/${openingId}/close`, {});
  expect(refused).toMatchObject({ status: 409, body: { reasons: [{ kind: 'procedure-left' }] } });
  expect(refused.body.detail).toContain(words);
  expect((await shop.as.colleague.post(`/api/procedure-runs/${runId}/resume`)).status).toBe(200);
  expect(await against(openingId)).toEqual([]);
  expect((await as.post(`/api/openings/${openingId}/close`, {})).status).toBe(200);
});

test('an assembly that was begun is finished before closing, the next open step named; a skipped one is settled', async () => {
  const { as, jobId, open, mark, against } = await opened('H355-BEGUN', build);
  const openingId = await open();
  await mark('On, one');
  await mark('On, three');
  expect(await against(openingId)).toEqual([
    {
      kind: 'assembly-unfinished',
      words: 'Build it is begun and not finished, one step is open. Next is step 2, On, two.',
      subject: build.steps['On, two'],
      count: 1,
      href: at(jobId, build.steps['On, two']),
    },
  ]);
  await mark('On, two', { mark: 'skipped', reason: 'stays as it was' });
  expect(await against(openingId)).toEqual([]);
  expect((await as.post(`/api/openings/${openingId}/close`, {})).status).toBe(200);
});

test('a lead closes over both by name and reason; an assembly nobody went on with asks the next opening nothing', async () => {
  const { as, runId, open, mark, against } = await opened('H355-OVER-IT', build);
  const openingId = await open();
  const left = { why: 'parts are late', loose: 'nothing' };
  expect((await as.post(`/api/procedure-runs/${runId}/interrupt`, left)).status).toBe(201);
  expect((await against(openingId)).map(({ kind }: { kind: string }) => kind)).toEqual([
    'procedure-left',
    'assembly-unfinished',
  ]);
  const over = { override: 'Goes back to its owner as it is' };
  expect((await as.post(`/api/openings/${openingId}/close`, over)).status).toBe(403);
  expect((await shop.as.lead.post(`/api/openings/${openingId}/close`, over)).status).toBe(200);
  await as.post(`/api/procedure-runs/${runId}/resume`);
  const again = await open();
  expect(await against(again)).toEqual([]);
  await mark('On, one');
  expect(await against(again)).toMatchObject([{ kind: 'assembly-unfinished', count: 2 }]);
});
