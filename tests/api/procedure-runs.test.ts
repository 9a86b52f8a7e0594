import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer, Client } from '../support/client.ts';
import { judge } from '../support/facts.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { branching, writtenStep } from '../support/written-procedure.ts';

let shop: Shop;
let versionId: string;
let codes = 0;
beforeAll(async () => {
  shop = await openShop();
  versionId = await published(branching('H355-BRANCH'));
});
afterAll(() => shop.close());

async function published(document: object): Promise<string> {
  const draft = await shop.as.lead.post('/api/procedures/import', document);
  const done = await shop.as.lead.post(`/api/procedure-versions/${draft.body.id}/publish`, undefined, {
    'if-match': '"1"',
  });
  expect([draft.status, done.status, done.body.detail]).toEqual([201, 200, undefined]);
  return draft.body.id;
}

interface Run {
  readonly jobId: string;
  readonly engineId: string;
  readonly runId: string;
}

async function started(of: string = versionId): Promise<Run> {
  codes += 1;
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-R${codes}` });
  const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: of });
  return { jobId, engineId, runId: body.id };
}
async function read({ jobId }: Run) {
  return (await shop.as.clerk.get(`/api/jobs/${jobId}/procedure-runs`)).body.items[0];
}
async function stepOf(of: Run, title: string) {
  return (await read(of)).steps.find((step: { title: string }) => step.title === title);
}
async function act(
  of: Run,
  title: string,
  what: string,
  body: object,
  as: Client = shop.as.technician,
): Promise<Answer> {
  return as.post(`/api/procedure-runs/${of.runId}/steps/${(await stepOf(of, title)).id}/${what}`, body);
}
const answer = (of: Run, choice: string, reason?: string) =>
  act(of, 'Look at the bore', 'answer', { choice, ...(reason === undefined ? {} : { reason }) });
/** The one step with a photo point says why it has none: photos are another test's. */
const done = (of: Run, title: string, as?: Client) =>
  act(of, title, 'mark', { mark: 'done', ...(title === 'Look at the bore' ? { noPhoto: 'no camera' } : {}) }, as);
const standings = async (of: Run) =>
  Object.fromEntries(
    (await read(of)).steps.map(({ title, standing }: { title: string; standing: string }) => [title, standing]),
  );

describe('branches', () => {
  test('a fact leaves a step out with the reason; an open question lets one wait', async () => {
    const of = await started();
    expect(await stepOf(of, 'Two-stroke only')).toMatchObject({
      standing: 'left out',
      because: 'Only where the engine is two-stroke; here: four-stroke.',
    });
    expect(await stepOf(of, 'Wrap it for the plater')).toMatchObject({
      standing: 'not known yet',
      because: 'Only with the answer “Scored” to step 1, Look at the bore.',
    });
    expect((await done(of, 'Two-stroke only')).body.detail).toContain('left out here');
    expect((await done(of, 'Wrap it for the plater')).body.detail).toContain('not answered yet');
  });

  test('a step that asks is not done before it is answered, and only with one of its choices', async () => {
    const of = await started();
    expect((await done(of, 'Look at the bore')).body.detail).toContain('answer first: What is seen in the bore?');
    const wrong = await answer(of, 'pretty');
    expect(wrong).toMatchObject({ status: 422, body: { errors: [{ pointer: '/choice' }] } });
    expect((await act(of, 'Tidy up', 'answer', { choice: 'sound' })).body.detail).toContain('asks nothing');
    expect((await answer(of, 'sound')).status).toBe(201);
    expect((await done(of, 'Look at the bore')).status).toBe(200);
    expect(await standings(of)).toMatchObject({ 'Wrap it for the plater': 'left out', 'Circlip out': 'to do' });
  });

  test('a later answer takes the place of an earlier one with a reason; both stay facts', async () => {
    const of = await started();
    await answer(of, 'sound');
    expect((await answer(of, 'sound')).status).toBe(409);
    expect(await answer(of, 'scored')).toMatchObject({ status: 422, body: { errors: [{ pointer: '/reason' }] } });
    expect((await answer(of, 'scored', 'seen again in daylight')).status).toBe(201);
    expect(await standings(of)).toMatchObject({ 'Wrap it for the plater': 'to do' });
    expect((await stepOf(of, 'Look at the bore')).answers).toMatchObject([
      { choice: 'sound', reason: '' },
      { choice: 'scored', reason: 'seen again in daylight' },
    ]);
    await expect(shop.sql`update run_answer set choice = 'sound'`).rejects.toThrow('append-only');
  });

  test('the database says the same of every step as the service, and takes no mark on what is left out', async () => {
    const of = await started();
    await answer(of, 'sound');
    const rows = await shop.sql<{ title: string; out: boolean }[]>`
      select s.title, step_left_out(${of.runId}, s.id) as out from procedure_step s where s.version_id = ${versionId}`;
    for (const [title, standing] of Object.entries(await standings(of)))
      expect([title, rows.find((row) => row.title === title)?.out]).toEqual([title, standing === 'left out']);
    const { id } = await stepOf(of, 'Wrap it for the plater');
    await expect(
      shop.sql`insert into step_mark (id, run_id, step_id, mark, marked_by_id)
               values (${crypto.randomUUID()}, ${of.runId}, ${id}, 'done', ${shop.people.technician})`,
    ).rejects.toThrow('left out here');
  });
});

describe('stop points', () => {
  async function atTheStop() {
    const of = await started();
    await answer(of, 'sound');
    await done(of, 'Look at the bore');
    await done(of, 'Circlip out');
    return of;
  }

  test('nothing after one is done until another person has signed', async () => {
    const of = await atTheStop();
    const run = await read(of);
    expect(run.heldAtStepId).toBe((await stepOf(of, 'Circlip out')).id);
    expect(run.steps.some(({ next }: { next: boolean }) => next)).toBe(false);
    expect(await done(of, 'Tidy up')).toMatchObject({ status: 409, body: { heldAtStepId: run.heldAtStepId } });
    const second = { mark: 'second person' };
    expect((await act(of, 'Circlip out', 'mark', second)).status).toBe(422);
    expect((await act(of, 'Circlip out', 'mark', second, shop.as.colleague)).status).toBe(200);
    expect((await done(of, 'Tidy up')).status).toBe(200);
    expect(await read(of)).toMatchObject({ settled: 3, all: 3, heldAtStepId: null });
  });

  test('one is never skipped, and never signed by who did it: the database holds both', async () => {
    const of = await atTheStop();
    const { id } = await stepOf(of, 'Circlip out');
    const other = await started();
    expect((await act(other, 'Circlip out', 'mark', { mark: 'skipped', reason: 'in a hurry' })).body.detail).toContain(
      'never skipped',
    );
    const insert = (runId: string, mark: string, by: string) => shop.sql`
      insert into step_mark (id, run_id, step_id, mark, reason, marked_by_id)
      values (${crypto.randomUUID()}, ${runId}, ${id}, ${mark}, 'x', ${by})`;
    await expect(insert(other.runId, 'skipped', shop.people.technician)).rejects.toThrow("can't be skipped");
    await expect(insert(of.runId, 'second person', shop.people.technician)).rejects.toThrow('another than the one');
    await insert(of.runId, 'second person', shop.people.colleague);
  });

  test('done again, it needs its second person again', async () => {
    const of = await atTheStop();
    await act(of, 'Circlip out', 'mark', { mark: 'second person' }, shop.as.colleague);
    expect((await act(of, 'Tidy up', 'again', { reason: 'x' })).body.detail).toContain('still to be done');
    expect((await act(of, 'Circlip out', 'again', { reason: ' ' })).status).toBe(400);
    expect((await act(of, 'Circlip out', 'again', { reason: 'one circlip sat askew' })).body.standing).toBe('to do');
    expect(await stepOf(of, 'Circlip out')).toMatchObject({
      round: 2,
      next: true,
      redos: [{ reason: 'one circlip sat askew' }],
    });
    expect((await done(of, 'Circlip out', shop.as.colleague)).body.standing).toBe('waits for a second person');
    expect((await act(of, 'Circlip out', 'mark', { mark: 'second person' })).status).toBe(200);
    expect((await stepOf(of, 'Circlip out')).marks).toHaveLength(4);
  });

  test('of two who sign at once one does', async () => {
    const of = await atTheStop();
    const second = { mark: 'second person' };
    const answers = await Promise.all([
      act(of, 'Circlip out', 'mark', second, shop.as.colleague),
      act(of, 'Circlip out', 'mark', second, shop.as.lead),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
  });
});

describe('left in the middle', () => {
  const left = { why: 'End of my shift', loose: 'One circlip out, one in' };
  const interrupt = (of: Run, body: object = left, as: Client = shop.as.technician) =>
    as.post(`/api/procedure-runs/${of.runId}/interrupt`, body);
  const resume = (of: Run, as: Client = shop.as.colleague) => as.post(`/api/procedure-runs/${of.runId}/resume`);

  test('nothing is marked until somebody has read it and goes on, at the step it was left at', async () => {
    const of = await started();
    await answer(of, 'sound');
    await done(of, 'Look at the bore');
    expect((await interrupt(of, { ...left, loose: ' ' })).status).toBe(400);
    expect((await interrupt(of)).status).toBe(201);
    expect((await interrupt(of)).status).toBe(409);
    const refused = await done(of, 'Circlip out', shop.as.colleague);
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain(
      'Nadia Quill left this procedure (End of my shift). Loose or half done: One circlip out, one in.',
    );
    expect((await resume(of, shop.as.writer)).status).toBe(403);
    const { id } = await stepOf(of, 'Circlip out');
    expect((await resume(of)).body).toEqual({ stepId: id });
    expect((await resume(of)).status).toBe(409);
    expect((await read(of)).interruptions).toMatchObject([
      { stepId: id, ...left, by: { name: 'Nadia Quill' }, resumed: { by: { name: 'Oskar Pell' } } },
    ]);
    expect((await done(of, 'Circlip out', shop.as.colleague)).status).toBe(200);
  });

  test('of two who resume at once one does, and the database takes one interruption at a time', async () => {
    const of = await started();
    await interrupt(of);
    const answers = await Promise.all([resume(of), resume(of, shop.as.lead)]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
    await interrupt(of);
    const { id } = await stepOf(of, 'Circlip out');
    await expect(
      shop.sql`insert into run_interruption (id, run_id, step_id, why, loose, interrupted_by_id)
               values (${crypto.randomUUID()}, ${of.runId}, ${id}, 'x', 'x', ${shop.people.lead})`,
    ).rejects.toThrow('interrupted already');
  });

  test('not at a step that is left out, nor when everything is done', async () => {
    const of = await started();
    const { id } = await stepOf(of, 'Two-stroke only');
    expect((await interrupt(of, { ...left, stepId: id })).status).toBe(409);
    await answer(of, 'sound');
    for (const title of ['Look at the bore', 'Circlip out']) await done(of, title);
    await act(of, 'Circlip out', 'mark', { mark: 'second person' }, shop.as.colleague);
    await done(of, 'Tidy up');
    expect((await interrupt(of)).body.detail).toContain('there is nothing to leave');
  });
});

describe('required readings', () => {
  test('a step is not done before its dimensions are measured in their round', async () => {
    const readings = [{ dimension: 'bore', round: 'as received' as const }];
    const of = await started(
      await published(branching('H355-READ', { steps: [writtenStep('Measure the bore', { readings })] })),
    );
    const refused = await done(of, 'Measure the bore');
    expect(refused).toMatchObject({ status: 409, body: { missingReadings: readings } });
    await judge(shop, of, { dimension: 'bore', verdict: 'within standard', value: 88.01 });
    expect(await stepOf(of, 'Measure the bore')).toMatchObject({ readings: [{ dimension: 'bore', measured: true }] });
    expect((await done(of, 'Measure the bore')).status).toBe(200);
  });
});

describe('what belongs to another version', () => {
  test('a step of another revision is refused with which one it is of, by the service and by the database', async () => {
    const of = await started();
    const other = await started(await published(branching('H355-OTHER')));
    const { id } = await stepOf(other, 'Circlip out');
    for (const [what, body] of [
      ['mark', { mark: 'done' }],
      ['answer', { choice: 'sound' }],
      ['again', { reason: 'x' }],
    ] as const) {
      const refused = await shop.as.technician.post(`/api/procedure-runs/${of.runId}/steps/${id}/${what}`, body);
      expect(refused.status).toBe(422);
      expect(refused.body.detail).toContain(
        'That is step 4 of version 1 of "Branching H355-OTHER"; this run follows version 1',
      );
    }
    await expect(
      shop.sql`insert into step_mark (id, run_id, step_id, mark, marked_by_id)
               values (${crypto.randomUUID()}, ${of.runId}, ${id}, 'done', ${shop.people.technician})`,
    ).rejects.toThrow('belongs to another version');
  });

  test('a run keeps the version it began with while a newer one is published', async () => {
    const document = branching('H355-NEWER');
    const first = await published(document);
    const of = await started(first);
    const second = await published({ ...document, steps: document.steps.slice(0, 2) });
    expect((await read(of)).steps).toHaveLength(5);
    const listed = await shop.as.clerk.get(`/api/procedures?familyId=${shop.sheet.familyId}`);
    expect(listed.body.items.find(({ code }: { code: string }) => code === 'H355-NEWER')).toMatchObject({
      versionId: second,
      version: 2,
      steps: 2,
    });
    await expect(shop.sql`update procedure_run set version_id = ${second} where id = ${of.runId}`).rejects.toThrow(
      'append-only',
    );
  });
});

describe('codes', () => {
  test('are told by the names of the sheet: in a version by the family’s newest, in a run by the job’s own', async () => {
    const readings = [{ dimension: 'bore', round: 'as received' as const }];
    const measuring = await published(branching('H355-NAMED', { steps: [writtenStep('Measure', { readings })] }));
    const namesOf = async (version: string) =>
      (await shop.as.clerk.get(`/api/procedure-versions/${version}/names`)).body;
    expect(await namesOf(measuring)).toEqual({
      dimensions: [{ code: 'bore', name: expect.stringMatching(/^Bore/) }],
      fastenerSets: [],
    });
    const before = await started(measuring);
    const revisionId = crypto.randomUUID();
    await shop.sql`
      insert into spec_revision (id, family_id, number, figures_invented) values (${revisionId}, ${shop.sheet.familyId}, 2, true)`;
    await shop.sql`
      insert into spec_fastener_set (id, revision_id, code, name, thread, condition, reuse)
      values (${crypto.randomUUID()}, ${revisionId}, 'side-bolts', 'Side bolts', 'M6', 'dry', 'reuse')`;
    await shop.sql`update spec_revision set published_at = now(), published_by_id = ${shop.people.lead} where id = ${revisionId}`;
    const pulling = await published(
      branching('H355-PULLED', { steps: [writtenStep('Pull', { fastenerSet: 'side-bolts' }), writtenStep('Look')] }),
    );
    expect(await namesOf(pulling)).toEqual({
      dimensions: [],
      fastenerSets: [{ code: 'side-bolts', name: 'Side bolts' }],
    });
    expect(await namesOf(measuring), 'the newest sheet no longer has it').toEqual({ dimensions: [], fastenerSets: [] });
    expect(await stepOf(before, 'Measure')).toMatchObject({ readings: [{ name: expect.stringMatching(/^Bore/) }] });
    const of = await started(pulling);
    expect(await stepOf(of, 'Pull')).toMatchObject({ fastenerSetName: 'Side bolts' });
    expect(await stepOf(of, 'Look')).toMatchObject({ fastenerSet: null, fastenerSetName: null });
  });
});

describe('a step that says the engine is turned over in it', () => {
  test('waits while a piece may be inside, and goes on once it is found; the document keeps what it says', async () => {
    const steps = [writtenStep('Bring it to the mark', { turnsEngine: true }), writtenStep('Wipe it down')];
    const document = branching('H355-TURNS', { steps });
    const id = await published(document);
    expect((await shop.as.lead.get(`/api/procedure-versions/${id}/procedure.json`)).body).toEqual(document);
    const run = await started(id);
    const as = shop.as.technician;
    await as.post(`/api/engines/${run.engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const opening = (await as.post(`/api/jobs/${run.jobId}/openings`)).body.id;
    const tray = (await as.post(`/api/jobs/${run.jobId}/trays`, { name: 'Dowels' })).body.id;
    const off = await as.post(`/api/openings/${opening}/pieces/off`, {
      pieces: [{ byHand: { name: 'dowel', expected: 2 }, count: 1 }],
      trayId: tray,
    });
    const pieces = [{ pieceId: off.body.pieces[0].id, count: 1 }];
    const lost = await as.post(`/api/openings/${opening}/pieces/possibly-inside`, { pieces, reason: 'Heard it fall' });
    expect([lost.status, lost.body.detail]).toEqual([200, undefined]);
    expect((await done(run, 'Wipe it down')).status).toBe(200);
    const refused = await done(run, 'Bring it to the mark');
    expect([refused.status, refused.body.detail]).toEqual([409, expect.stringMatching(/must not be turned over/)]);
    const found = await as.post(`/api/openings/${opening}/pieces/found`, {
      pieces,
      trayId: tray,
      reason: 'In the sump',
    });
    expect([found.status, found.body.detail]).toEqual([200, undefined]);
    expect((await done(run, 'Bring it to the mark')).status).toBe(200);
  });
});
