import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { jpeg } from '../support/pictures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { writtenStep } from '../support/written-procedure.ts';

let shop: Shop;
let versionId: string;
let token: string;
let serials = 0;
let shade = 300;
beforeAll(async () => {
  shop = await openShop();
  const draft = await shop.as.lead.post('/api/procedures/import', {
    ...{ shape: 1, code: 'H355-CAMS', name: 'Cams out', kind: 'prove', family: 'H355', note: '' },
    steps: [
      writtenStep('Read the marks', { photo: 'Crank mark and both cam marks', secondPerson: true }),
      writtenStep('Tidy up'),
    ],
  });
  versionId = draft.body.id;
  const tag = { 'if-match': '"1"' };
  expect(
    (await shop.as.lead.post(`/api/procedure-versions/${versionId}/publish`, undefined, tag)).body.detail,
  ).toBeUndefined();
  ({ token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined }));
});
afterAll(() => shop.close());

async function started() {
  serials += 1;
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-P${serials}` });
  const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/procedure-runs`, { versionId });
  const of = { jobId, engineId, runId: String(body.id) };
  return { ...of, stepId: String((await stepOf(of)).id) };
}
type Run = Awaited<ReturnType<typeof started>>;

async function stepOf({ jobId }: { readonly jobId: string }) {
  return (await shop.as.clerk.get(`/api/jobs/${jobId}/procedure-runs`)).body.items[0].steps[0];
}
const mark = ({ runId, stepId }: Run, body: object) =>
  shop.as.technician.post(`/api/procedure-runs/${runId}/steps/${stepId}/mark`, body);

async function photograph({ jobId, runId, stepId }: Run) {
  shade += 1;
  const reply = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/photos?${new URLSearchParams({ run: runId, step: stepId })}`,
    payload: await jpeg(400, shade),
    headers: { 'content-type': 'image/jpeg', 'idempotency-key': crypto.randomUUID() },
    cookies: { [SESSION_COOKIE]: token },
  });
  expect(reply.statusCode).toBe(201);
  return reply.json();
}

describe('a step that asks for a photo', () => {
  test('stays open until the photo stands, and prints it on the build sheet at that step', async () => {
    const of = await started();
    expect(await mark(of, { mark: 'done' })).toMatchObject({
      status: 409,
      body: { missingPhoto: 'Crank mark and both cam marks' },
    });
    expect(await stepOf(of)).toMatchObject({ standing: 'to do', photos: 0 });
    const photo = await photograph(of);
    expect(photo).toMatchObject({ of: { kind: 'step', words: 'Step 1, Read the marks' }, onSheet: true });
    expect(await mark(of, { mark: 'done' })).toMatchObject({
      status: 200,
      body: { standing: 'waits for a second person' },
    });
    expect(await stepOf(of)).toMatchObject({ photos: 1 });
    const sheet = await shop.as.writer.get(`/api/jobs/${of.jobId}/sheet`);
    expect(sheet.body.photos).toMatchObject([{ id: photo.id, of: 'Step 1, Read the marks' }]);
  });

  test('is done without one only with the reason, which the timeline tells and the build sheet prints', async () => {
    const of = await started();
    expect(await mark(of, { mark: 'done', noPhoto: '  ' })).toMatchObject({ status: 409 });
    expect(await mark(of, { mark: 'done', noPhoto: 'x'.repeat(301) })).toMatchObject({ status: 400 });
    expect(await mark(of, { mark: 'done', noPhoto: 'The camera’s battery is flat' })).toMatchObject({ status: 200 });
    expect((await stepOf(of)).marks).toMatchObject([{ mark: 'done', noPhoto: 'The camera’s battery is flat' }]);
    const told = await shop.sql`
      select data->>'noPhoto' as why from event where job_id = ${of.jobId} and kind = 'step.marked'`;
    expect([...told]).toEqual([{ why: 'The camera’s battery is flat' }]);
    const sheetNow = async () => (await shop.as.writer.get(`/api/jobs/${of.jobId}/sheet`)).body;
    expect((await sheetNow()).unphotographed).toMatchObject([
      { step: 'Read the marks', reason: 'The camera’s battery is flat', by: expect.any(String) },
    ]);
    const { id } = await photograph(of);
    expect((await sheetNow()).unphotographed).toEqual([]);
    await shop.as.lead.post(`/api/photos/${id}/remove`, { reason: 'Another engine' });
    expect((await sheetNow()).unphotographed).toHaveLength(1);
  });

  test('asks again when it is done again, and when its photo was removed', async () => {
    const of = await started();
    const { id } = await photograph(of);
    await shop.as.lead.post(`/api/photos/${id}/remove`, { reason: 'Another engine' });
    expect((await mark(of, { mark: 'done' })).status).toBe(409);
    await photograph(of);
    expect((await mark(of, { mark: 'done' })).status).toBe(200);
    const again = `/api/procedure-runs/${of.runId}/steps/${of.stepId}/again`;
    expect((await shop.as.technician.post(again, { reason: 'A cap was off once more' })).status).toBe(200);
    expect(await stepOf(of)).toMatchObject({ photos: 0, standing: 'to do' });
    expect((await mark(of, { mark: 'done' })).status).toBe(409);
    await photograph(of);
    expect((await mark(of, { mark: 'done' })).status).toBe(200);
  });

  test('done again without one prints the reason that counts now: neither the earlier one nor an earlier photo stands for it', async () => {
    const unphotographed = async (of: Run) =>
      (await shop.as.writer.get(`/api/jobs/${of.jobId}/sheet`)).body.unphotographed.map(
        ({ reason }: { reason: string }) => reason,
      );
    const again = (of: Run) =>
      shop.as.technician.post(`/api/procedure-runs/${of.runId}/steps/${of.stepId}/again`, { reason: 'Cap off again' });
    const without = await started();
    await mark(without, { mark: 'done', noPhoto: 'Battery flat' });
    await again(without);
    expect(await unphotographed(without)).toEqual([]);
    await mark(without, { mark: 'done', noPhoto: 'Lens broken' });
    expect(await unphotographed(without)).toEqual(['Lens broken']);
    const withOne = await started();
    await photograph(withOne);
    await mark(withOne, { mark: 'done' });
    await again(withOne);
    await mark(withOne, { mark: 'done', noPhoto: 'Lens broken' });
    expect(await unphotographed(withOne)).toEqual(['Lens broken']);
    await photograph(withOne);
    expect(await unphotographed(withOne)).toEqual([]);
  });

  test('is held open by the database, too', async () => {
    const of = await started();
    const insert = (noPhoto: string) => shop.sql`
      insert into step_mark (id, run_id, step_id, mark, no_photo, marked_by_id)
      values (${crypto.randomUUID()}, ${of.runId}, ${of.stepId}, 'done', ${noPhoto}, ${shop.people.technician})`;
    await expect(insert('')).rejects.toThrow('asks for a photo');
    await expect(insert('none')).resolves.toBeDefined();
  });
});
