import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openShop, type Shop } from '../support/shop.ts';
import { anyProcedure, branching, writtenStep } from '../support/written-procedure.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const bring = (document: object) => shop.as.lead.post('/api/procedures/import', document);
const keep = (id: string, document: object, edit = 1) =>
  shop.as.lead.put(`/api/procedure-versions/${id}/procedure.json`, document, { 'if-match': `"${edit}"` });
const publish = (id: string, edit = 1) =>
  shop.as.lead.post(`/api/procedure-versions/${id}/publish`, undefined, { 'if-match': `"${edit}"` });
const documentOf = async (id: string) => (await shop.as.clerk.get(`/api/procedure-versions/${id}/procedure.json`)).body;
const rows = async () => {
  const [row] = await shop.sql<{ n: number }[]>`
    select (select count(*) from procedure_version) + (select count(*) from procedure_step) + (select count(*) from procedure) as n`;
  return Number(row?.n);
};

describe('a procedure as a document', () => {
  test('whatever it says: imported, published and exported it is the same, as a draft and from its rows', async () => {
    let number = 0;
    await fc.assert(
      fc.asyncProperty(anyProcedure, async (drawn) => {
        number += 1;
        const document = { ...drawn, code: `ANY-${number}` };
        const draft = await bring(document);
        expect(draft.status).toBe(201);
        expect(await documentOf(draft.body.id)).toEqual(document);
        const done = await publish(draft.body.id);
        expect([done.status, done.body.errors]).toEqual([200, undefined]);
        expect(await documentOf(draft.body.id)).toEqual(document);
      }),
      { numRuns: 40 },
    );
  }, 120_000);

  test.each([
    ['a list', [], ''],
    ['another shape', { ...branching('BAD'), shape: 2 }, '/shape'],
    ['an unknown field', { ...branching('BAD'), colour: 'red' }, ''],
    ['a code with blanks', branching('BAD ONE'), '/code'],
    ['a kind there is not', { ...branching('BAD'), kind: 'polish' }, '/kind'],
    ['steps that are no list', { ...branching('BAD'), steps: {} }, '/steps'],
    [
      'a hazard there is not',
      branching('BAD', { steps: [{ ...writtenStep('A'), cautions: [{ hazard: 'boredom', words: 'x' }] } as never] }),
      '/steps/0/cautions/0/hazard',
    ],
    [
      'a count of none',
      branching('BAD', {
        steps: [
          writtenStep('A', {
            pieces: [{ name: 'x', expected: 0, from: '', why: '', layer: null, oneTime: false, matchedSet: null }],
          }),
        ],
      }),
      '/steps/0/pieces/0/expected',
    ],
    ['a control character', branching('BAD', { steps: [writtenStep('A\u0007')] }), '/steps/0/title'],
    ['a step without its fields', branching('BAD', { steps: [{ title: 'A' } as never] }), '/steps/0/section'],
  ])('%s is refused with its field, and nothing is written', async (_, document, pointer) => {
    const before = await rows();
    const answer = await shop.as.lead.post('/api/procedures/import', document as object);
    expect(answer.status).toBe(400);
    expect(answer.body.errors.map((fault: { pointer: string }) => fault.pointer).join(' ')).toContain(pointer);
    expect(await rows()).toBe(before);
  });

  test('a family there is not is refused, and so is a draft beside a draft', async () => {
    expect(await bring(branching('NOWHERE', { family: 'Z999' }))).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/family' }] },
    });
    const first = await bring(branching('TWICE'));
    expect(await bring(branching('TWICE'))).toMatchObject({ status: 409, body: { versionId: first.body.id } });
  });
});

describe('a draft', () => {
  test('is begun, kept with its faults told, published once it has none, and then never changes', async () => {
    const { body: made } = await shop.as.lead.post('/api/procedures', {
      code: 'H355-NEW',
      name: 'New one',
      kind: 'strip',
      familyId: shop.sheet.familyId,
    });
    expect((await publish(made.id)).body.detail).toContain('There is no step.');
    const faulty = branching('H355-NEW', { steps: [writtenStep('A', { onlyIf: [{ question: 'q', oneOf: ['x'] }] })] });
    const kept = await keep(made.id, faulty);
    expect(kept.body).toMatchObject({
      edit: 2,
      steps: 1,
      faults: [{ pointer: '/steps/0/onlyIf/0/question', step: 1, field: 'onlyIf' }],
    });
    expect((await shop.as.clerk.get(`/api/procedure-versions/${made.id}/faults`)).body.items).toHaveLength(1);
    const refused = await publish(made.id, 2);
    expect(refused.status).toBe(422);
    expect(refused.body).toMatchObject({
      errors: [{ pointer: '/steps/0/onlyIf/0/question', detail: expect.stringContaining('Step 1: ') }],
    });
    expect((await keep(made.id, branching('H355-NEW'), 2)).body).toMatchObject({ edit: 3, faults: [] });
    expect((await publish(made.id, 3)).body.number).toBe(1);
    expect((await keep(made.id, branching('H355-NEW'), 3)).body.detail).toContain('never changes');
    expect((await shop.as.lead.remove(`/api/procedure-versions/${made.id}`, { 'if-match': '"3"' })).status).toBe(409);
    for (const statement of [
      `update procedure_step set title = 'x' where version_id = '${made.id}'`,
      `delete from step_caution where step_id in (select id from procedure_step where version_id = '${made.id}')`,
      `update procedure_version set note = 'x' where id = '${made.id}'`,
    ])
      await expect(shop.sql.unsafe(statement)).rejects.toThrow('never changes');
  });

  test('is copied from the newest published version, and discarded', async () => {
    const first = await bring(branching('H355-COPY'));
    await publish(first.body.id);
    const next = await shop.as.lead.post(`/api/procedures/${first.body.procedureId}/drafts`);
    expect(next.body).toMatchObject({ number: 2 });
    expect(await documentOf(next.body.id)).toEqual(branching('H355-COPY'));
    expect((await shop.as.lead.post(`/api/procedures/${first.body.procedureId}/drafts`)).status).toBe(409);
    const { body } = await shop.as.clerk.get('/api/procedure-shelf');
    expect(body.items.find(({ code }: { code: string }) => code === 'H355-COPY').versions).toMatchObject([
      { number: 2, publishedAt: null, steps: 5 },
      { number: 1, steps: 5, runs: 0 },
    ]);
    expect((await shop.as.lead.remove(`/api/procedure-versions/${next.body.id}`, { 'if-match': '"1"' })).body).toEqual({
      number: 2,
    });
  });

  test('is not made another’s, and not changed over somebody else’s change', async () => {
    const { body } = await bring(branching('H355-MINE'));
    expect(await keep(body.id, branching('H355-YOURS'))).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/code' }] },
    });
    const answers = await Promise.all([
      keep(body.id, branching('H355-MINE')),
      keep(body.id, branching('H355-MINE', { note: 'b' })),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 412]);
    const none = await shop.as.lead.put(`/api/procedure-versions/${body.id}/procedure.json`, branching('H355-MINE'));
    expect(none.status).toBe(428);
  });

  test('is the lead’s to write', async () => {
    const { body } = await bring(branching('H355-LEAD'));
    for (const as of [shop.as.technician, shop.as.writer, shop.as.clerk]) {
      expect((await as.post('/api/procedures/import', branching('H355-X'))).status).toBe(403);
      expect(
        (
          await as.put(`/api/procedure-versions/${body.id}/procedure.json`, branching('H355-LEAD'), {
            'if-match': '"1"',
          })
        ).status,
      ).toBe(403);
      expect(
        (await as.post(`/api/procedure-versions/${body.id}/publish`, undefined, { 'if-match': '"1"' })).status,
      ).toBe(403);
    }
  });
});
