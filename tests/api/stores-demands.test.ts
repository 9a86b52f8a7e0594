import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addKit, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let serial = 0;
const newJob = () => {
  serial += 1;
  return takeIn(shop, { serial: `D-${serial}` });
};
describe('a demand', () => {
  test('of a kit has a line a part, none asked for yet, each with the kit as its reason', async () => {
    const { jobId } = await newJob();
    const [piston, rings] = [await addPart(sql), await addPart(sql)];
    const kitId = await addKit(shop, [
      [piston.id, 1],
      [rings.id, 2],
    ]);
    const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, { kitId });
    expect(status).toBe(201);
    expect(body.lines).toHaveLength(2);
    expect(body.lines[0].reasons[0].kit.id).toBe(kitId);
    expect(await standing(shop, jobId, rings.id)).toEqual({ ...none, notAsked: 2 });
  });

  test('twice of one part is one line with both reasons', async () => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    await technician.post(`/api/jobs/${jobId}/demands`, { kitId: await addKit(shop, [[part.id, 1]]) });
    const lines = [{ partId: part.id, quantity: 2, words: 'bore past the limit' }];
    const { body } = await technician.post(`/api/jobs/${jobId}/demands`, { lines });
    expect(body.lines).toHaveLength(1);
    expect(body.lines[0]).toMatchObject({ wanted: 3, notAsked: 3, state: 'not asked' });
    expect(body.lines[0].reasons.map((reason: { quantity: number }) => reason.quantity)).toEqual([1, 2]);
    expect(body.lines[0].reasons[1].words).toBe('bore past the limit');
  });

  test('brings its companions, and a kit that has them already brings no more', async () => {
    const [piston, circlip] = [await addPart(sql), await addPart(sql)];
    await sql`insert into part_companion (part_id, companion_id, quantity) values (${piston.id}, ${circlip.id}, 2)`;
    const alone = await newJob();
    await demand(shop, alone.jobId, [[piston.id, 1]]);
    expect(await standing(shop, alone.jobId, circlip.id)).toEqual({ ...none, notAsked: 2 });
    const { body } = await clerk.get(`/api/jobs/${alone.jobId}/demands`);
    const companion = body.lines.find((line: { part: { id: string } }) => line.part.id === circlip.id);
    expect(companion.reasons[0].comesWith.id).toBe(piston.id);

    const withKit = await newJob();
    const kitId = await addKit(shop, [
      [piston.id, 1],
      [circlip.id, 2],
    ]);
    await technician.post(`/api/jobs/${withKit.jobId}/demands`, { kitId });
    expect(await standing(shop, withKit.jobId, circlip.id)).toEqual({ ...none, notAsked: 2 });
  });

  test('cancelled, it takes what goes with it along, as far as that is not handed out or wanted otherwise', async () => {
    const [piston, circlip] = [await addPart(sql), await addPart(sql)];
    await sql`insert into part_companion (part_id, companion_id, quantity) values (${piston.id}, ${circlip.id}, 2)`;
    const { jobId } = await newJob();
    const lines = await demand(shop, jobId, [[piston.id, 3]]);
    await demand(shop, jobId, [[circlip.id, 1]]);
    const lotId = await addLot(shop, { partId: circlip.id, quantity: 6 });
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, reserved: 6, short: 1 });
    const cancel = (quantity?: number) =>
      clerk.post(`/api/demand-lines/${lines.get(piston.id)}/cancel`, {
        words: 'cast ones stay in',
        ...(quantity === undefined ? {} : { quantity }),
      });
    expect((await cancel(1)).status).toBe(200);
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, reserved: 5, cancelled: 2 });
    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    const circlips = body.lines.find(({ part }: { part: { id: string } }) => part.id === circlip.id);
    await clerk.post(`/api/demand-lines/${circlips.id}/issue`, { quantity: 2 });
    expect((await cancel()).status).toBe(200);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, cancelled: 3 });
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, issued: 2, cancelled: 5 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 4, reserved: 0 });
    const [told] = await sql<{ data: object }[]>`
      select data from event where job_id = ${jobId} and kind = 'demand.cancelled' order by recorded_at desc limit 1`;
    expect(told?.data).toMatchObject({ quantity: 2, calledOff: [{ part: circlip.number, quantity: 3 }] });
  });

  test('returned and not needed, it takes what goes with it along; still needed, nothing', async () => {
    const [piston, circlip, pin] = [await addPart(sql), await addPart(sql), await addPart(sql)];
    await sql`insert into part_companion (part_id, companion_id, quantity) values (${piston.id}, ${circlip.id}, 2), (${piston.id}, ${pin.id}, 1)`;
    const { jobId } = await newJob();
    const lines = await demand(shop, jobId, [[piston.id, 3]]);
    await demand(shop, jobId, [[circlip.id, 1]]);
    const lotId = await addLot(shop, { partId: circlip.id, quantity: 6 });
    await addLot(shop, { partId: piston.id, quantity: 3 });
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const at = `/api/demand-lines/${lines.get(piston.id)}`;
    expect((await clerk.post(`${at}/issue`, { quantity: 3 })).status).toBe(200);
    const bring = (quantity: number, stillNeeded: boolean) => clerk.post(`${at}/return`, { quantity, stillNeeded });

    expect((await bring(1, true)).status).toBe(200);
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, reserved: 6, short: 1 });
    expect((await bring(1, false)).status).toBe(200);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, issued: 1, cancelled: 1, notAsked: 1 });
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, reserved: 5, cancelled: 2 });
    expect(await standing(shop, jobId, pin.id)).toEqual({ ...none, short: 2, cancelled: 1 });

    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    const circlips = body.lines.find(({ part }: { part: { id: string } }) => part.id === circlip.id);
    await clerk.post(`/api/demand-lines/${circlips.id}/issue`, { quantity: 2 });
    await clerk.post(`${at}/cancel`, { quantity: 1, words: 'two will do' });
    expect((await bring(1, false)).status).toBe(200);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, cancelled: 3 });
    expect(await standing(shop, jobId, circlip.id)).toEqual({ ...none, issued: 2, cancelled: 5 });
    expect(await standing(shop, jobId, pin.id)).toEqual({ ...none, cancelled: 3 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 4, reserved: 0 });
    const after = await clerk.get(`/api/jobs/${jobId}/demands`);
    const left = after.body.lines.find(({ part }: { part: { id: string } }) => part.id === circlip.id);
    expect(left.reasons.map(({ withdrawn }: { withdrawn: boolean }) => withdrawn).toSorted()).toEqual([false, true]);
    const told = await sql<{ data: { calledOff?: object } }[]>`
      select data from event where job_id = ${jobId} and kind = 'part.returned' order by recorded_at`;
    expect(told.map(({ data }) => data.calledOff)).toMatchObject([
      undefined,
      [{ quantity: 2 }, { quantity: 1 }],
      [{ quantity: 1 }, { quantity: 1 }],
    ]);
  });

  test.each([0, -1, 1.5, 200_000])('of %s pieces is refused', async (quantity) => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, {
      lines: [{ partId: part.id, quantity, words: 'x' }],
    });
    expect(status).toBe(400);
    expect(body.type).toBe('urn:crosshatch:problem:invalid-request');
  });

  test('of an unknown part names it and adds nothing, not even the known ones', async () => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, {
      lines: [
        { partId: part.id, quantity: 1, words: 'x' },
        { partId: newId(), quantity: 1, words: 'x' },
      ],
    });
    expect(status).toBe(404);
    expect(body.errors[0].pointer).toBe('/lines/1/partId');
    expect((await clerk.get(`/api/jobs/${jobId}/demands`)).body.lines).toEqual([]);
  });

  test('of a retired part names its successor', async () => {
    const { jobId } = await newJob();
    const [old, young] = [await addPart(sql), await addPart(sql, { name: 'Gasket, later form' })];
    await sql`update part set retired_at = clock_timestamp(), superseded_by_id = ${young.id} where id = ${old.id}`;
    const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, {
      lines: [{ partId: old.id, quantity: 1, words: 'x' }],
    });
    expect(status).toBe(422);
    expect(body.detail).toContain('Gasket, later form');
  });

  test('of a kit for another family is refused', async () => {
    const { jobId } = await newJob();
    const [family, kitId] = [newId(), newId()];
    await sql`
      insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
      values (${family}, 'T615', 'Torvik 615', 'four-stroke', 'air', 98000000, 81500000)`;
    await sql`insert into kit (id, family_id, name) values (${kitId}, ${family}, 'Top end')`;
    const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, { kitId });
    expect(status).toBe(422);
    expect(body.detail).toContain('Torvik 615');
  });

  test('of an unknown kit, or for an unknown job, is refused', async () => {
    const { jobId } = await newJob();
    expect((await technician.post(`/api/jobs/${jobId}/demands`, { kitId: newId() })).status).toBe(404);
    expect((await technician.post(`/api/jobs/${newId()}/demands`, { kitId: newId() })).status).toBe(404);
  });

  test('cancelled gives what was reserved back to stock', async () => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 2 });
    const lineId = (await demand(shop, jobId, [[part.id, 3]])).get(part.id) ?? '';
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const { status, body } = await technician.post(`/api/demand-lines/${lineId}/cancel`, { words: 'within limit' });
    expect(status).toBe(200);
    expect(body.lines[0].state).toBe('cancelled');
    expect(body.lines[0].reasons[0].withdrawn).toBe(true);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, cancelled: 3 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 2, reserved: 0 });
    expect((await technician.post(`/api/demand-lines/${lineId}/cancel`, { words: 'again' })).status).toBe(409);
  });
});
