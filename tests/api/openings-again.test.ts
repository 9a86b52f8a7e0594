import { afterAll, beforeAll, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { checkAll } from '../support/closing-check.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

/** A job whose procedures were followed to their end in its first opening, and whose engine is opened once more. */

let shop: Shop;
let stripped: WrittenProcedure;
let built: WrittenProcedure;
const cams = [{ name: 'Cam cap', expected: 2 }];
const head = [{ name: 'Head', expected: 1 }];
/** A second revision of the sheet: four head bolts in two stages, and nothing else to be built. All figures invented. */
async function publishHeadBolts(): Promise<void> {
  const { sql } = shop;
  const [id, setId] = [newId(), newId()];
  await sql`insert into spec_revision (id, family_id, number, figures_invented) values (${id}, ${shop.sheet.familyId}, 2, true)`;
  await sql`
    insert into spec_fastener_set (id, revision_id, code, name, thread, condition, reuse)
    values (${setId}, ${id}, 'head', 'Head bolts', 'M10', 'oiled', 'reuse')`;
  for (const number of [1, 2, 3, 4])
    await sql`insert into spec_fastener (id, set_id, number, x_nm, y_nm) values (${newId()}, ${setId}, ${number}, ${number * 1000000}, 0)`;
  for (const ordinal of [1, 2])
    await sql`insert into spec_fastener_stage (id, set_id, ordinal, torque_unm) values (${newId()}, ${setId}, ${ordinal}, ${ordinal * 20000000})`;
  await sql`update spec_revision set published_at = clock_timestamp(), published_by_id = ${shop.people.lead} where id = ${id}`;
}

beforeAll(async () => {
  shop = await openShop();
  await publishHeadBolts();
  const { familyId } = shop.sheet;
  stripped = await insertProcedure(shop.sql, {
    ...{ familyId, code: 'strip-twice', kind: 'strip' },
    steps: [
      { title: 'Cover off', pieces: [{ name: 'Cover', expected: 1 }] },
      { title: 'Cams out', pieces: cams },
      { title: 'Head off', fastenerSet: 'head', pieces: head },
    ],
  });
  built = await insertProcedure(shop.sql, {
    ...{ familyId, code: 'build-twice', kind: 'assemble' },
    steps: [
      { title: 'Head on', fastenerSet: 'head', secondPerson: true },
      { title: 'Time the cams', secondPerson: true, pieces: cams.map((piece) => ({ ...piece, name: 'cam cap' })) },
    ],
  });
});

afterAll(() => shop.close());

const technician = () => shop.as.technician;
const colleague = () => shop.as.colleague;
async function mark(runId: string, stepId: string | undefined, asked = 'done', by = technician()) {
  const { status } = await by.post(`/api/procedure-runs/${runId}/steps/${stepId}/mark`, { mark: asked });
  expect(status).toBe(200);
}
async function signed(runId: string, title: string) {
  await mark(runId, built.steps[title]);
  await mark(runId, built.steps[title], 'second person', colleague());
}
const offAndOn = async (openingId: string, names: readonly string[]) => {
  const pieces = names.map((name) => ({ stepPieceId: stripped.pieces[name], count: name === 'Cam cap' ? 2 : 1 }));
  const { body } = await technician().post(`/api/openings/${openingId}/pieces/off`, { pieces });
  const back = body.pieces.map(({ id, off }: { id: string; off: number }) => ({ pieceId: id, count: off }));
  expect((await technician().post(`/api/openings/${openingId}/pieces/fitted`, { pieces: back })).status).toBe(200);
  await checkAll(colleague(), openingId);
};
const pull = (jobId: string, stage: number, fastener: number) => shop.sql`
  insert into torque_pull (id, job_id, set_code, fastener, stage, keyed_text, keyed_unit, torque_unm, pulled_by_id)
  values (${newId()}, ${jobId}, 'head', ${fastener}, ${stage}, '20', 'N.m', 20000000, ${shop.people.technician})`;
const against = async (openingId: string) =>
  (await technician().get(`/api/openings/${openingId}/closing`)).body.reasons.map(
    (each: { words: string }) => each.words,
  );
async function pullAll(jobId: string) {
  for (const stage of [1, 2]) for (const fastener of [1, 2, 3, 4]) await pull(jobId, stage, fastener);
}

/** Stripped, built, signed by two and closed; then opened once more, and nobody marks a step. */
async function openedAgain(serial: string) {
  const { jobId } = await takeIn(shop, { serial });
  const first = (await technician().post(`/api/jobs/${jobId}/openings`)).body.id;
  const strips = await technician().post(`/api/jobs/${jobId}/procedure-runs`, { versionId: stripped.versionId });
  await offAndOn(first, ['Cover', 'Cam cap', 'Head']);
  for (const stepId of Object.values(stripped.steps)) await mark(strips.body.id, stepId);
  const builds = await technician().post(`/api/jobs/${jobId}/procedure-runs`, { versionId: built.versionId });
  await pullAll(jobId);
  await signed(builds.body.id, 'Head on');
  await signed(builds.body.id, 'Time the cams');
  expect(await against(first)).toEqual([]);
  expect((await technician().post(`/api/openings/${first}/close`, {})).status).toBe(200);
  const again: string = (await technician().post(`/api/jobs/${jobId}/openings`)).body.id;
  return { jobId, again, buildId: builds.body.id as string };
}

test('a second opening asks nothing of what stayed on', async () => {
  const { again } = await openedAgain('H355-AGAIN-COVER');
  await offAndOn(again, ['Cover']);
  expect(await against(again)).toEqual([]);
});

test('a second opening asks for the bolts and the stop point of a head that came off, though its step was done before', async () => {
  const { jobId, again, buildId } = await openedAgain('H355-AGAIN-HEAD');
  await offAndOn(again, ['Head']);
  const stop = 'Head on: apart again since it was done. Do it again, and a second person signs.';
  const all = 'position 1, 2, 3, 4';
  expect(await against(again)).toEqual([
    `Head bolts, stage 1: 4 not pulled (${all}).`,
    `Head bolts, stage 2: 4 not pulled (${all}).`,
    stop,
  ]);
  await pullAll(jobId);
  expect(await against(again)).toEqual([stop]);
  const redo = await technician().post(`/api/procedure-runs/${buildId}/steps/${built.steps['Head on']}/again`, {
    reason: 'the head was off',
  });
  expect(redo.status).toBe(200);
  expect(await against(again)).toEqual(['Head on: not signed by a second person.']);
  await signed(buildId, 'Head on');
  expect(await against(again)).toEqual([]);
});

test('a second opening asks two people for the timing of cams that came out again, with a link to its step', async () => {
  const { jobId, again } = await openedAgain('H355-AGAIN-CAMS');
  await offAndOn(again, ['Cam cap']);
  const { body } = await technician().get(`/api/openings/${again}/closing`);
  expect(body.reasons).toEqual([
    {
      kind: 'stop-unsigned',
      words: 'Time the cams: apart again since it was done. Do it again, and a second person signs.',
      subject: built.steps['Time the cams'],
      count: null,
      href: `/bench/${jobId}/procedure?step=${built.steps['Time the cams']}`,
    },
  ]);
});
