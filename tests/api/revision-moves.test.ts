import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { insertSpecSheet } from '../support/spec-sheet.ts';

const shop = await openShop();
afterAll(shop.close);
const { lead, technician } = shop.as;
const family = `/api/families/${shop.sheet.familyId}`;
let old: { readonly jobId: string; readonly engineId: string };
let newer = '';
let draft = '';

const move = (jobId: string, body: object, by = lead) => by.post(`/api/jobs/${jobId}/revision`, body);
const reason = 'Bulletin 7 lowers the service limit of the bore';

/** The newest revision with the bore's service limit lowered to 88.020 mm. */
async function drafted(copyOf: string): Promise<{ url: string; id: string; tag: string }> {
  const begun = await lead.post(`${family}/spec-revisions`, { copyOf });
  expect(begun.status, JSON.stringify(begun.body)).toBe(201);
  const url = `/api/spec-revisions/${begun.body.id}`;
  const sheet: SpecSheetDocument = (await lead.get(`${url}/sheet.json`)).body;
  const dimensions = sheet.dimensions.map((dimension) =>
    dimension.code === 'bore'
      ? {
          ...dimension,
          limits: dimension.limits.map((limits) =>
            limits.sizeClass !== 'standard'
              ? limits
              : {
                  ...limits,
                  service: { low: null, high: { value: '88.020', unit: 'mm', source: 'Bulletin 7', page: '1' } },
                },
          ),
        }
      : dimension,
  );
  const put = await lead.put(`${url}/sheet.json`, { ...sheet, dimensions }, { 'if-match': `"${begun.body.version}"` });
  expect(put.status, JSON.stringify(put.body)).toBe(200);
  return { url, id: begun.body.id, tag: `"${put.body.version}"` };
}

beforeAll(async () => {
  await insertInstruments(shop.sql, shop.people.lead);
  old = await takeIn(shop, { serial: 'M-1' });
  const kept = await technician.post(`/api/jobs/${old.jobId}/readings`, {
    round: 'as received',
    dimension: 'bore',
    readings: boreOf(['88.031', '88.030', '88.031', '88.030', '88.031', '88.030']),
  });
  expect(kept.status, JSON.stringify(kept.body)).toBe(201);
  const { url, id, tag } = await drafted(shop.sheet.revisionId);
  const published = await lead.post(`${url}/publish`, undefined, { 'if-match': tag });
  expect(published.status, JSON.stringify(published.body)).toBeLessThan(300);
  newer = id;
  draft = (await drafted(newer)).id;
});

const boreOfJob = async (jobId: string) => {
  const { body } = await technician.get(`/api/jobs/${jobId}/findings`);
  return body.items.filter(({ dimension }: { dimension: string }) => dimension === 'bore');
};

describe('a job whose sheet has a newer revision', () => {
  test('keeps its own, and tells what would be judged otherwise', async () => {
    const { status, body } = await technician.get(`/api/jobs/${old.jobId}/newer-revision`);
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.newer).toMatchObject({ id: newer, number: 2, boundTo: shop.sheet.revisionId });
    expect(body.newer.otherwise).toEqual([
      {
        dimension: 'bore',
        name: 'Bore, size',
        round: 'as received',
        before: 'within service limit',
        after: 'past the limit',
      },
    ]);
    expect(await boreOfJob(old.jobId)).toHaveLength(1);
    const fresh = await takeIn(shop, { serial: 'M-2' });
    expect((await technician.get(`/api/jobs/${fresh.jobId}/newer-revision`)).body).toEqual({ newer: null });
  });

  test('is moved by a lead with a reason only, and never to a draft, another family or backwards', async () => {
    expect((await move(old.jobId, { revisionId: newer, reason }, technician)).status).toBe(403);
    expect((await move(old.jobId, { revisionId: newer, reason: '  ' })).status).toBe(400);
    const refused = await move(old.jobId, { revisionId: draft, reason });
    expect(refused).toMatchObject({ status: 422, body: { errors: [{ pointer: '/revisionId' }] } });
    expect(refused.body.detail).toContain('draft');
    const other = await insertSpecSheet(shop.sql, shop.people.lead, { code: 'T615', name: 'Torvik 615' });
    expect((await move(old.jobId, { revisionId: other.revisionId, reason })).body.detail).toContain(
      'another engine family',
    );
    expect((await move(old.jobId, { revisionId: shop.sheet.revisionId, reason })).status).toBe(409);
    const fresh = await takeIn(shop, { serial: 'M-3' });
    expect((await move(fresh.jobId, { revisionId: shop.sheet.revisionId, reason })).body.detail).toContain('newer');
    expect((await move(old.jobId, { revisionId: shop.people.lead, reason })).status).toBe(404);
    expect(await boreOfJob(old.jobId)).toHaveLength(1);
  });

  test('is judged anew from the same readings; what was found before stays as it was judged', async () => {
    const [before] = await boreOfJob(old.jobId);
    const { status, body } = await move(old.jobId, { revisionId: newer, reason });
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toMatchObject({ from: 1, to: 2, findings: [{ dimension: 'bore', verdict: 'past the limit' }] });
    const findings = await boreOfJob(old.jobId);
    expect(findings).toHaveLength(2);
    expect(findings[0]).toMatchObject({ id: before.id, verdict: 'within service limit', limits: before.limits });
    expect(findings[1]).toMatchObject({ verdict: 'past the limit', supersedesId: before.id });
    const { body: page } = await technician.get(`/api/engines/${old.engineId}`);
    expect(page.job.revision).toMatchObject({ id: newer, number: 2, newest: 2 });
    expect(page.obligations.map(({ words }: { words: string }) => words).join()).toContain('Bore');
    const { body: sheet } = await technician.get(`/api/jobs/${old.jobId}/sheet`);
    expect(sheet.revision).toMatchObject({ number: 2, moves: [{ from: 1, to: 2, reason }] });
    const [event] =
      await shop.sql`select kind, data from event where job_id = ${old.jobId} order by happened_at desc limit 1`;
    expect(event).toMatchObject({ kind: 'revision.moved', data: { from: 1, to: 2, reason } });
  });

  test('moved by two at once is moved once', async () => {
    const { jobId } = await takeIn(shop, { serial: 'M-4' });
    await shop.sql`alter table job disable trigger keep_revision`;
    await shop.sql`update job set revision_id = ${shop.sheet.revisionId} where id = ${jobId}`;
    await shop.sql`alter table job enable trigger keep_revision`;
    const moves = await Promise.all([1, 2, 3].map(() => move(jobId, { revisionId: newer, reason })));
    expect(moves.map(({ status }) => status).toSorted()).toEqual([201, 409, 409]);
  });

  test('is held to it by PostgreSQL, whoever writes', async () => {
    await expect(
      shop.sql`update job set revision_id = ${shop.sheet.revisionId} where id = ${old.jobId}`,
    ).rejects.toThrow('keeps its revision');
    await expect(
      shop.sql`
        insert into revision_move (id, job_id, from_revision_id, to_revision_id, reason, moved_by_id)
        values (gen_random_uuid(), ${old.jobId}, ${newer}, ${shop.sheet.revisionId}, 'back', ${shop.people.lead})`,
    ).rejects.toThrow('newer published revision');
  });

  test('and was handed back is moved no more', async () => {
    const { jobId } = await takeIn(shop, { serial: 'M-5' });
    await shop.sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.writer} where id = ${jobId}`;
    expect((await move(jobId, { revisionId: newer, reason })).status).toBe(409);
  });
});
