import { afterAll, beforeAll, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { checkAll } from '../support/closing-check.ts';
import { insertProcedure, insertStrip, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
let assemble: WrittenProcedure;
let revisionId: string;

/** A second revision of the sheet with four head bolts in two stages, two rings and one valve. All figures invented. */
async function publishRevision(): Promise<string> {
  const { sql } = shop;
  const id = newId();
  const setId = newId();
  await sql`insert into spec_revision (id, family_id, number, figures_invented) values (${id}, ${shop.sheet.familyId}, 2, true)`;
  await sql`
    insert into spec_fastener_set (id, revision_id, code, name, thread, condition, reuse)
    values (${setId}, ${id}, 'head', 'Head bolts', 'M10', 'oiled', 'inspect')`;
  for (const number of [1, 2, 3, 4]) {
    await sql`insert into spec_fastener (id, set_id, number, x_nm, y_nm) values (${newId()}, ${setId}, ${number}, ${number * 1000000}, 0)`;
  }
  for (const ordinal of [1, 2]) {
    await sql`insert into spec_fastener_stage (id, set_id, ordinal, torque_unm) values (${newId()}, ${setId}, ${ordinal}, ${ordinal * 20000000})`;
  }
  for (const [index, code] of ['top', 'second'].entries()) {
    await sql`
      insert into spec_ring (id, revision_id, code, name, ordinal, angle_udeg)
      values (${newId()}, ${id}, ${code}, ${`Ring, ${code}`}, ${index + 1}, ${index * 180000000})`;
  }
  await sql`
    insert into spec_valve (id, revision_id, code, name, side, ordinal, dimension_code, wanted_nm, adjuster, shim_diameter_nm)
    values (${newId()}, ${id}, 'IL', 'intake left', 'intake', 1, 'lash-IL', 130000, 'shim under bucket', 7480000)`;
  await sql`update spec_revision set published_at = clock_timestamp(), published_by_id = ${shop.people.lead} where id = ${id}`;
  return id;
}

beforeAll(async () => {
  shop = await openShop();
  revisionId = await publishRevision();
  strip = await insertStrip(shop.sql, shop.sheet.familyId);
  assemble = await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: 'assemble-h355',
    kind: 'assemble',
    steps: [
      { title: 'Head on', fastenerSet: 'head' },
      { title: 'Time the cams', secondPerson: true },
    ],
  });
});
afterAll(() => shop.close());

async function opened(serial: string) {
  const as = shop.as.technician;
  const { jobId, engineId } = await takeIn(shop, { serial });
  await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const opening = await as.post(`/api/jobs/${jobId}/openings`);
  const openingId: string = opening.body.id;
  const off = async (name: string) => {
    const { body } = await as.post(`/api/openings/${openingId}/pieces/off`, {
      pieces: [{ stepPieceId: strip.pieces[name], count: 1 }],
    });
    return () =>
      as.post(`/api/openings/${openingId}/pieces/fitted`, { pieces: [{ pieceId: body.pieces[0].id, count: 1 }] });
  };
  const reasons = async () => {
    const { body } = await as.get(`/api/openings/${openingId}/closing`);
    return body.reasons.map(({ words }: { words: string }) => words);
  };
  return { jobId, engineId, openingId, off, reasons };
}

const pull = (jobId: string, stage: number, fastener: number) => shop.sql`
  insert into torque_pull (id, job_id, set_code, fastener, stage, keyed_text, keyed_unit, torque_unm, pulled_by_id)
  values (${newId()}, ${jobId}, 'head', ${fastener}, ${stage}, '20', 'N.m', 20000000, ${shop.people.technician})`;
const findLash = (
  job: { jobId: string; engineId: string },
  verdict: string,
  supersedesId: string | null = null,
  round = 'as built',
) => {
  const id = newId();
  return shop.sql`
    insert into finding (id, job_id, engine_id, revision_id, dimension_code, dimension_name, round, kind, unit, decimals, value_type,
                         value_low, value_high, u, guard, rule, verdict, p_past_low, p_past_high, inside, limits, budget, instruments,
                         running_minutes, formula_version, judged_by_id, supersedes_id)
    values (${id}, ${job.jobId}, ${job.engineId}, ${revisionId}, 'lash-IL', 'Lash, intake left', ${round}, 'length', 'mm', 2, 'interval',
            100000, 150000, 0, 0, 'iso-14253-1-2017', ${verdict}, 0, 0, true, '{}', '[]', '[]', 14610, 1, ${shop.people.technician}, ${supersedesId})
    returning id`;
};

test('torque: every position and stage of a set that the assembly asks for, a struck pull counting as none', async () => {
  const of = await opened('H355-TORQUE');
  await shop.as.technician.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: assemble.versionId });
  const all = 'position 1, 2, 3, 4';
  const unfinished = 'assemble-h355 is begun and not finished, 2 steps are open. Next is step 1, Head on.';
  expect(await of.reasons()).toEqual([
    `Head bolts, stage 1: 4 not pulled (${all}).`,
    `Head bolts, stage 2: 4 not pulled (${all}).`,
    unfinished,
    'Time the cams: not signed by a second person.',
  ]);
  for (const stage of [1, 2])
    for (const fastener of [1, 2, 3, 4]) if (stage !== 2 || fastener !== 3) await pull(of.jobId, stage, fastener);
  expect((await of.reasons())[0]).toBe('Head bolts, stage 2: 1 not pulled (position 3).');
  await pull(of.jobId, 2, 3);
  expect(await of.reasons()).toEqual([unfinished, 'Time the cams: not signed by a second person.']);
  await shop.sql`
    insert into torque_strike (pull_id, reason, struck_by_id)
    select id, 'wrong bolt', ${shop.people.technician} from torque_pull where job_id = ${of.jobId} and stage = 1 and fastener = 4`;
  expect((await of.reasons())[0]).toBe('Head bolts, stage 1: 1 not pulled (position 4).');
});

test('a step of the assembly that was skipped asks for no torque; a stop point can’t be skipped', async () => {
  const of = await opened('H355-SKIP');
  const run = await shop.as.technician.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: assemble.versionId });
  const skip = (title: string) =>
    shop.as.technician.post(`/api/procedure-runs/${run.body.id}/steps/${assemble.steps[title]}/mark`, {
      mark: 'skipped',
      reason: 'head stayed on',
    });
  expect((await skip('Head on')).status).toBe(200);
  expect((await skip('Time the cams')).body.detail).toContain('never skipped');
  expect(await of.reasons()).toEqual([
    'assemble-h355 is begun and not finished, one step is open. Next is step 2, Time the cams.',
    'Time the cams: not signed by a second person.',
  ]);
});

test('rings: once the cylinder was off, each is to be placed by the rule, marks up, and signed by another', async () => {
  const of = await opened('H355-RINGS');
  const fitted = await of.off('cylinder');
  await fitted();
  await checkAll(shop.as.colleague, of.openingId);
  const place = (gaps: readonly string[], faults: readonly object[], marksWell = true) => shop.sql`
    insert into ring_placement (id, job_id, gaps, faults, marks_well, placed_by_id)
    values (${newId()}, ${of.jobId}, ${shop.sql.json(gaps.map((ring) => ({ ring, angle: 0 })))}, ${shop.sql.json(faults as never)}, ${marksWell}, ${shop.people.technician})`;
  expect(await of.reasons()).toEqual(['Ring, top: its gap is not placed.', 'Ring, second: its gap is not placed.']);
  await place(['top'], []);
  expect(await of.reasons()).toEqual(['Ring, second: its gap is not placed.']);
  await place(['top', 'second'], [{ ring: 'top', words: 'too close' }]);
  expect(await of.reasons()).toEqual(['Ring, top: its gap stands against the rule.']);
  await place(['top', 'second'], [], false);
  expect(await of.reasons()).toHaveLength(2);
  await place(['top', 'second'], []);
  expect(await of.reasons()).toEqual(['Ring gaps (Ring, top, Ring, second): not signed off by a second person.']);
  await shop.sql`
    insert into ring_sign_off (placement_id, signed_by_id)
    select id, ${shop.people.colleague} from ring_placement
    where job_id = ${of.jobId} order by placed_at desc, id desc limit 1`;
  expect(await of.reasons()).toEqual([]);
});

test('lash: once the head was off it is measured as built, and again after a shim was chosen', async () => {
  const of = await opened('H355-LASH');
  const fitted = await of.off('head');
  await fitted();
  await checkAll(shop.as.colleague, of.openingId);
  expect(await of.reasons()).toEqual(['Lash of intake left: not measured after the work.']);
  const [undecided] = await findLash(of, 'undecided');
  expect(await of.reasons()).toEqual(['Lash of intake left: undecided.']);
  await findLash(of, 'within standard', undecided?.id);
  expect(await of.reasons()).toEqual([]);
  await shop.sql`
    insert into shim_choice (id, job_id, valve_code, lash_low_nm, lash_high_nm, fitted_nm, wanted_low_nm, wanted_high_nm, chosen_nm,
                             then_low_nm, then_high_nm, from_words, guaranteed, chosen_by_id)
    values (${newId()}, ${of.jobId}, 'IL', 90000, 100000, 2350000, 100000, 150000, 2300000, 140000, 150000, 'bin', true, ${shop.people.technician})`;
  expect(await of.reasons()).toEqual(['Lash of intake left: not measured after the work.']);
});

test('what was done before the last closing counts no more: a second opening asks again', async () => {
  const of = await opened('H355-TWICE');
  const fitted = await of.off('head');
  await fitted();
  await checkAll(shop.as.colleague, of.openingId);
  await findLash(of, 'within standard');
  const closed = await shop.as.technician.post(`/api/openings/${of.openingId}/close`, {});
  expect(closed.status).toBe(200);
  const signed = await shop.as.technician.get(`/api/openings/${of.openingId}/closing`);
  expect(signed.body).toEqual({
    openingId: of.openingId,
    mayClose: false,
    reasons: [],
    closed: {
      by: expect.objectContaining({ id: shop.people.technician }),
      at: closed.body.closedAt,
      override: null,
    },
  });
  const again = await shop.as.technician.post(`/api/jobs/${of.jobId}/openings`);
  const calm = await shop.as.technician.get(`/api/openings/${again.body.id}/closing`);
  expect(calm.body.mayClose).toBe(true);
  const { body } = await shop.as.technician.post(`/api/openings/${again.body.id}/pieces/off`, {
    pieces: [{ stepPieceId: strip.pieces.head, count: 1 }],
  });
  await shop.as.technician.post(`/api/openings/${again.body.id}/pieces/fitted`, {
    pieces: [{ pieceId: body.pieces[0].id, count: 1 }],
  });
  await checkAll(shop.as.colleague, again.body.id);
  const asks = await shop.as.technician.get(`/api/openings/${again.body.id}/closing`);
  expect(asks.body.reasons).toMatchObject([{ kind: 'lash-not-verified', subject: 'intake left' }]);
});

test('a lead closes over what stands against it by name and reason; nobody else does, nor without a reason', async () => {
  const of = await opened('H355-OVER');
  await shop.as.technician.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: assemble.versionId });
  const close = (who: keyof typeof shop.as, body: object) =>
    shop.as[who].post(`/api/openings/${of.openingId}/close`, body);
  const stands = await of.reasons();
  expect(stands).toHaveLength(4);
  expect((await close('lead', {})).status).toBe(409);
  expect((await close('lead', { override: '   ' })).status).toBe(400);
  expect((await close('technician', { override: 'it will do' })).status).toBe(403);
  expect((await close('lead', { override: 'Goes out as a loose bottom end' })).status).toBe(200);
  const { body } = await shop.as.technician.get(`/api/openings/${of.openingId}/closing`);
  expect(body.closed).toMatchObject({
    by: { name: 'Maren Tolk' },
    override: { words: 'Goes out as a loose bottom end', reasons: stands },
  });
  const events = await shop.sql`select data from event where job_id = ${of.jobId} and kind = 'opening.closed'`;
  expect(events).toMatchObject([{ data: { overridden: stands, reason: 'Goes out as a loose bottom end' } }]);
  const sheet = await shop.as.writer.get(`/api/jobs/${of.jobId}/sheet`);
  expect(sheet.body).toMatchObject({
    openings: [{ closedBy: 'Maren Tolk', overridden: true }],
    overrides: [
      { gate: 'close the opening', by: 'Maren Tolk', words: 'Goes out as a loose bottom end', reasons: stands },
    ],
  });
});

test('the assembly bench and the gate say the same of a lash: only what was measured as built counts', async () => {
  const of = await opened('H355-LASH-BOTH');
  await of.off('head');
  const shown = async () => {
    const { body } = await shop.as.technician.get(`/api/jobs/${of.jobId}/assembly`);
    return body.valves.map(({ verified }: { verified: string }) => verified);
  };
  const asked = async () => (await of.reasons()).filter((words: string) => words.startsWith('Lash of'));
  await findLash(of, 'within standard', null, 'as received');
  expect(await shown()).toEqual(['not-verified']);
  expect(await asked()).toEqual(['Lash of intake left: not measured after the work.']);
  await findLash(of, 'within standard');
  expect(await shown()).toEqual(['in-range']);
  expect(await asked()).toEqual([]);
});

test('an engine whose head is off is closed by nobody, lead or not', async () => {
  const of = await opened('H355-HEADOFF');
  await of.off('head');
  const refused = await shop.as.lead.post(`/api/openings/${of.openingId}/close`, { override: 'sold as it is' });
  expect(refused).toMatchObject({ status: 409, body: { type: 'urn:crosshatch:problem:not-closed' } });
  expect(refused.body.detail).toContain('The head is off.');
  const { body } = await shop.as.lead.get(`/api/openings/${of.openingId}/closing`);
  expect(body.closed).toBeNull();
});

test('the database takes an override of a lead alone, with a reason, and of an opening that is open', async () => {
  const of = await opened('H355-RULE');
  const override = (byId: string, words: string, reasons: readonly string[] = ['Rings not placed.']) => shop.sql`
    insert into override (id, job_id, gate, opening_id, reasons, words, overridden_by_id)
    values (${newId()}, ${of.jobId}, 'close the opening', ${of.openingId}, ${shop.sql.json(reasons as never)}, ${words}, ${byId})`;
  await expect(override(shop.people.technician, 'it will do')).rejects.toMatchObject({ code: 'CH008' });
  await expect(override(shop.people.lead, ' ')).rejects.toMatchObject({ code: '23514' });
  await expect(override(shop.people.lead, 'it will do', [])).rejects.toMatchObject({ code: '23514' });
  await shop.as.lead.post(`/api/openings/${of.openingId}/close`, {});
  await expect(override(shop.people.lead, 'it will do')).rejects.toMatchObject({ code: 'CH002' });
});

test('a reason about a piece or a layer leads to the very step: where it goes back on, or where it came off', async () => {
  const of = await opened('H355-LED');
  const fitted = await of.off('head');
  await of.off('cap dowel');
  const led = async () => {
    const { body } = await shop.as.technician.get(`/api/openings/${of.openingId}/closing`);
    const pieces = body.reasons.filter(
      ({ kind }: { kind: string }) => kind.startsWith('piece') || kind === 'layer-off',
    );
    return pieces.map(({ words, href }: { words: string; href: string }) => [words.split(':')[0], href]);
  };
  const at = (stepId: string | undefined) => `/bench/${of.jobId}/procedure?step=${stepId}`;
  const missing = ['7 × cap dowel', at(strip.steps['Caps off'])];
  expect(await led()).toEqual([
    ['The head is off.', at(strip.steps['Head off'])],
    ['1 × cap dowel', at(strip.steps['Caps off'])],
    ['1 × head', at(strip.steps['Head off'])],
    missing,
  ]);
  const named = await insertProcedure(shop.sql, {
    ...{ familyId: shop.sheet.familyId, code: 'top-end-h355', kind: 'assemble' },
    steps: [
      { title: 'Look it over' },
      { title: 'Lower the head', pieces: [{ name: 'Head', expected: 1 }] },
      { title: 'Caps on', pieces: [{ name: 'Cap dowel', expected: 8 }] },
    ],
  });
  await shop.as.technician.post(`/api/jobs/${of.jobId}/procedure-runs`, { versionId: named.versionId });
  expect(await led()).toEqual([
    ['The head is off.', at(named.steps['Lower the head'])],
    ['1 × cap dowel', at(named.steps['Caps on'])],
    ['1 × head', at(named.steps['Lower the head'])],
    missing,
  ]);
  await fitted();
  expect(await led()).toEqual([['1 × cap dowel', at(named.steps['Caps on'])], missing]);
});
