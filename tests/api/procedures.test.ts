import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Client } from '../support/client.ts';
import { insertProcedure, insertStrip, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
let serials = 500;
beforeAll(async () => {
  shop = await openShop();
  strip = await insertStrip(shop.sql, shop.sheet.familyId);
});
afterAll(() => shop.close());

async function startStrip() {
  serials += 1;
  const as = shop.as.technician;
  const { jobId } = await takeIn(shop, { serial: `H355-${serials}` });
  const run = await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const opening = await as.post(`/api/jobs/${jobId}/openings`);
  return { jobId, runId: run.body.id as string, openingId: opening.body.id as string };
}
type Strip = Awaited<ReturnType<typeof startStrip>>;

const mark = (of: Strip, title: string, body: object = { mark: 'done' }, as: Client = shop.as.technician) =>
  as.post(`/api/procedure-runs/${of.runId}/steps/${strip.steps[title]}/mark`, body);
const count = (of: Strip, name: string, number: number) =>
  shop.as.technician.post(`/api/openings/${of.openingId}/pieces/off`, {
    pieces: [{ stepPieceId: strip.pieces[name], count: number }],
  });
async function runOf(of: Strip) {
  const { body } = await shop.as.technician.get(`/api/jobs/${of.jobId}/procedure-runs`);
  return body.items[0];
}

describe('procedures to choose from', () => {
  test('the newest published version of each, by family and kind', async () => {
    await insertProcedure(shop.sql, {
      familyId: shop.sheet.familyId,
      code: 'prove-h355',
      kind: 'prove',
      steps: [{ title: 'Leak-down' }],
    });
    const all = await shop.as.clerk.get(`/api/procedures?familyId=${shop.sheet.familyId}`);
    expect(all.body.items.map(({ code }: { code: string }) => code)).toEqual(['prove-h355', 'strip-h355']);
    const strips = await shop.as.clerk.get('/api/procedures?kind=strip');
    expect(strips.body.items).toEqual([expect.objectContaining({ versionId: strip.versionId, steps: 5 })]);
    const page = await shop.as.clerk.get('/api/procedures?limit=1');
    expect(page.body.next).toBe('prove-h355');
    const rest = await shop.as.clerk.get(`/api/procedures?limit=1&after=${page.body.next}`);
    expect(rest.body).toMatchObject({ items: [{ code: 'strip-h355' }], next: null });
  });

  test('a version with its steps and expected pieces', async () => {
    const { body } = await shop.as.clerk.get(`/api/procedure-versions/${strip.versionId}`);
    expect(body.steps.map(({ title }: { title: string }) => title)).toEqual([
      'Drain the coolant',
      'Cover off',
      'Caps off',
      'Head off',
      'Cylinder off',
    ]);
    expect(body.steps[2]).toMatchObject({
      secondPerson: true,
      pieces: [{ name: 'cam cap', matchedSet: 'caps' }, { expected: 8 }],
    });
    expect((await shop.as.clerk.get(`/api/procedure-versions/${crypto.randomUUID()}`)).status).toBe(404);
  });
});

describe('starting a procedure', () => {
  test('once a job, and the second time says which run it is', async () => {
    const of = await startStrip();
    const again = await shop.as.colleague.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: strip.versionId });
    expect(again).toMatchObject({
      status: 409,
      body: { type: 'urn:crosshatch:problem:already-done', runId: of.runId },
    });
  });

  test('not one that is unpublished, unknown or for another family, and not by the counter', async () => {
    const { jobId } = await startStrip();
    const draft = await insertProcedure(shop.sql, {
      familyId: shop.sheet.familyId,
      code: 'draft-h355',
      kind: 'strip',
      steps: [{ title: 'Begin' }],
      published: false,
    });
    const otherFamily = crypto.randomUUID();
    await shop.sql`
      insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
      values (${otherFamily}, 'O125', 'Ostrel 125 T', 'two-stroke', 'water', 54200000, 54100000)`;
    const other = await insertProcedure(shop.sql, {
      familyId: otherFamily,
      code: 'strip-o125',
      kind: 'strip',
      steps: [{ title: 'Begin' }],
    });
    const start = (versionId: string, as: Client = shop.as.technician) =>
      as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId });
    expect((await start(draft.versionId)).body.detail).toContain('not published');
    expect((await start(other.versionId)).body.detail).toContain('another engine family');
    expect((await start(crypto.randomUUID())).status).toBe(404);
    expect((await start(strip.versionId, shop.as.writer)).status).toBe(403);
  });
});

describe('marking steps', () => {
  test('the next step is the first that is neither done nor skipped', async () => {
    const of = await startStrip();
    expect((await runOf(of)).steps.find(({ next }: { next: boolean }) => next).title).toBe('Drain the coolant');
    await mark(of, 'Drain the coolant', { mark: 'skipped', reason: 'air-cooled' });
    const run = await runOf(of);
    expect(run.steps.find(({ next }: { next: boolean }) => next).title).toBe('Cover off');
    expect(run.steps[0]).toMatchObject({
      standing: 'skipped',
      marks: [{ by: { name: 'Nadia Quill' }, reason: 'air-cooled' }],
    });
  });

  test('a step is not done before its pieces are counted, and the refusal names them', async () => {
    const of = await startStrip();
    const refused = await mark(of, 'Cover off');
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain(
      'valve cover (step 2): not counted yet; cover bolt (step 2): not counted yet',
    );
    await count(of, 'valve cover', 1);
    await count(of, 'cover bolt', 4);
    expect((await mark(of, 'Cover off')).body).toEqual({ id: strip.steps['Cover off'], standing: 'done' });
  });

  test('a later step is not done while an earlier piece is short, until somebody says where it may be', async () => {
    const of = await startStrip();
    await count(of, 'valve cover', 1);
    const [bolts] = (await count(of, 'cover bolt', 3)).body.pieces;
    await count(of, 'cam cap', 2);
    await count(of, 'cap dowel', 8);
    const refused = await mark(of, 'Caps off');
    expect(refused).toMatchObject({ status: 409, body: { shortPieces: [{ expected: 4, off: 3 }] } });
    expect(refused.body.detail).toContain('Stop: cover bolt (step 2): 3 of 4 off.');
    expect((await runOf(of)).shortPieces).toMatchObject([{ name: 'cover bolt', short: 1 }]);
    await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/possibly-inside`, {
      pieces: [{ pieceId: bolts.id, count: 1 }],
      reason: 'not on the bench',
    });
    expect((await mark(of, 'Caps off')).status).toBe(200);
  });

  test('a short count stops every procedure of the job, done and skipped alike, until somebody says where it may be', async () => {
    const of = await startStrip();
    const other = await insertProcedure(shop.sql, {
      familyId: shop.sheet.familyId,
      code: `assemble-h355-${serials}`,
      kind: 'assemble',
      steps: [{ title: 'Oil the bore' }, { title: 'Cylinder on' }],
    });
    const run = await shop.as.technician.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: other.versionId });
    const markOther = (title: string, body: object) =>
      shop.as.technician.post(`/api/procedure-runs/${run.body.id}/steps/${other.steps[title]}/mark`, body);
    const [dowels] = (await count(of, 'cap dowel', 7)).body.pieces;
    const skipped = { mark: 'skipped', reason: 'in a hurry' };
    const answers = [
      await markOther('Oil the bore', { mark: 'done' }),
      await markOther('Oil the bore', skipped),
      await mark(of, 'Head off', skipped),
    ];
    for (const { status, body } of answers) {
      expect(status).toBe(409);
      expect(body.detail).toContain('cap dowel');
      expect(body.detail).toContain('7 of 8 off. Count them off, find them, or say that they were never there');
      expect(body.errors).toMatchObject([{ pointer: '/mark' }]);
      expect(body.href).toBe(`/bench/${of.jobId}/procedure?step=${strip.steps['Caps off']}`);
    }
    await expect(
      shop.sql`insert into step_mark (id, run_id, step_id, mark, reason, marked_by_id)
               values (${crypto.randomUUID()}, ${run.body.id}, ${other.steps['Oil the bore'] ?? ''}, 'skipped', 'x', ${shop.people.lead})`,
    ).rejects.toThrow('while a piece is short: cap dowel');
    await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/never-there`, {
      pieces: [{ pieceId: dowels.id, count: 1 }],
      reason: 'no hole for it',
    });
    expect((await markOther('Oil the bore', { mark: 'done' })).status).toBe(200);
    expect((await markOther('Cylinder on', skipped)).status).toBe(200);
  });

  test('a piece counted by hand stops the work too; a second person signs all the same', async () => {
    const of = await startStrip();
    for (const [name, number] of Object.entries({ 'valve cover': 1, 'cover bolt': 4, 'cam cap': 2, 'cap dowel': 8 })) {
      await count(of, name, number);
    }
    await mark(of, 'Caps off');
    await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/off`, {
      pieces: [{ byHand: { name: 'guide plate', expected: 2 }, count: 1 }],
    });
    expect((await mark(of, 'Drain the coolant')).body.detail).toContain('Stop: guide plate: 1 of 2 off.');
    expect((await mark(of, 'Caps off', { mark: 'second person' }, shop.as.colleague)).status).toBe(200);
  });

  test('a step for two waits for another person than the one who did it', async () => {
    const of = await startStrip();
    for (const [name, number] of Object.entries({ 'valve cover': 1, 'cover bolt': 4, 'cam cap': 2, 'cap dowel': 8 })) {
      await count(of, name, number);
    }
    const second = { mark: 'second person' };
    expect((await mark(of, 'Caps off', second, shop.as.colleague)).body.detail).toContain('not done yet');
    expect((await mark(of, 'Caps off')).body.standing).toBe('waits for a second person');
    expect((await mark(of, 'Caps off', second)).body.detail).toContain('you did it yourself');
    const closing = await shop.as.technician.get(`/api/openings/${of.openingId}/closing`);
    expect(closing.body.reasons.map(({ words }: { words: string }) => words)).toContain(
      'Caps off: not signed by a second person.',
    );
    expect((await mark(of, 'Caps off', second, shop.as.colleague)).body.standing).toBe('done');
    expect((await mark(of, 'Cover off', second, shop.as.colleague)).body.detail).toContain('asks for no second person');
  });

  test('a mark is made once, a skipped step is not done and a done one not skipped', async () => {
    const of = await startStrip();
    expect((await mark(of, 'Drain the coolant', { mark: 'skipped' })).body.detail).toContain('say why');
    await mark(of, 'Drain the coolant');
    expect((await mark(of, 'Drain the coolant', { mark: 'done' }, shop.as.colleague)).body.detail).toContain(
      'Nadia Quill marked it so already',
    );
    expect((await mark(of, 'Drain the coolant', { mark: 'skipped', reason: 'no' })).status).toBe(409);
    const [events] =
      await shop.sql`select count(*)::int as n from event where job_id = ${of.jobId} and kind = 'step.marked'`;
    expect(events?.n).toBe(1);
  });

  test('of two who mark one step at once one does', async () => {
    const of = await startStrip();
    const answers = await Promise.all([
      mark(of, 'Drain the coolant'),
      mark(of, 'Drain the coolant', { mark: 'done' }, shop.as.colleague),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
  });

  test('a step of another procedure is not known here', async () => {
    const of = await startStrip();
    const answer = await shop.as.technician.post(`/api/procedure-runs/${of.runId}/steps/${crypto.randomUUID()}/mark`, {
      mark: 'done',
    });
    expect(answer.status).toBe(404);
    const form = await shop.as.technician.post(`/api/procedure-runs/${of.runId}/steps/nonsense/mark`, {
      mark: 'perhaps',
    });
    expect(form.status).toBe(400);
  });

  test('what waits for a second person stands on the list of stop points until somebody else marks it', async () => {
    const of = await startStrip();
    for (const [name, number] of Object.entries({ 'valve cover': 1, 'cover bolt': 4, 'cam cap': 2, 'cap dowel': 8 })) {
      await count(of, name, number);
    }
    const waiting = async () => {
      const { body } = await shop.as.colleague.get('/api/stop-points');
      return body.items.filter(({ runId }: { runId: string }) => runId === of.runId);
    };
    expect(await waiting()).toEqual([]);
    await mark(of, 'Caps off');
    expect(await waiting()).toEqual([
      expect.objectContaining({
        stepId: strip.steps['Caps off'],
        title: 'Caps off',
        job: expect.objectContaining({ id: of.jobId }),
        doneBy: { id: shop.people.technician, name: 'Nadia Quill' },
      }),
    ]);
    await mark(of, 'Caps off', { mark: 'second person' }, shop.as.colleague);
    expect(await waiting()).toEqual([]);
  });
});
