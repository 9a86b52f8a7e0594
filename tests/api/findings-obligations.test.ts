import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { boreOf, insertInstruments, pistonOf } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { insertSpecSheet } from '../support/spec-sheet.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
afterAll(shop.close);
beforeAll(async () => {
  await insertInstruments(shop.sql, shop.people.lead);
});

const { technician, clerk, lead } = shop.as;
let serial = 0;
const newJob = async () => {
  serial += 1;
  return takeIn(shop, { serial: `O-${serial}` });
};
type Round = 'as received' | 'after work' | 'as built';
const key = (jobId: string, dimension: string, readings: readonly object[], round: Round = 'as received') =>
  technician.post(`/api/jobs/${jobId}/readings`, { round, dimension, readings });
const strike = (id: string) => technician.post(`/api/readings/${id}/strike`, { reason: 'held askew' });
const decide = (obligationIds: readonly string[], decision: object, who = technician) =>
  who.post('/api/obligations/decide', { obligationIds, ...decision });

interface ObligationWire {
  readonly id: string;
  readonly state: string;
  readonly words: string;
  readonly finding: { readonly dimension: string } | null;
  readonly [fact: string]: unknown;
}
const obligationsOf = async (jobId: string): Promise<readonly ObligationWire[]> =>
  (await technician.get(`/api/jobs/${jobId}/obligations`)).body.items;
const states = async (jobId: string) => (await obligationsOf(jobId)).map(({ state }) => state);

const good = ['88.006', '88.004', '88.007', '88.005', '88.008', '88.006'];
const worn = ['88.062', '88.058', '88.055', '88.051', '88.050', '88.049'];
const bored = ['88.257', '88.256', '88.257', '88.255', '88.258', '88.256'];

describe('an obligation', () => {
  test('is one a finding past its limit, and says which dimension, by how much, and what may be done', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    const [bore, ...others] = await obligationsOf(jobId);
    expect(others).toEqual([]);
    expect(bore).toMatchObject({ state: 'to decide', cause: 'finding', inside: true, decided: null, acts: [] });
    expect(bore?.words).toContain('Bore, size, as received: 88.062 mm, 0.012 mm past the upper limit 88.050 mm');
    expect(bore?.words).toContain('bore it to +0.25');
  });

  test('is discharged by a good re-measurement in the same round, which proves it', async () => {
    const { jobId } = await newJob();
    const first = await key(jobId, 'piston', pistonOf('87.910'));
    expect(await states(jobId)).toEqual(['to decide']);
    await strike(first.body.readings[0].id);
    expect(await states(jobId)).toEqual(['to decide']);
    const second = await key(jobId, 'piston', pistonOf('87.960'));
    const [obligation] = await obligationsOf(jobId);
    expect(obligation).toMatchObject({ state: 'discharged', acts: [{ act: 'discharged' }] });
    expect(second.body.obligations.discharged).toEqual([obligation?.id]);
    expect(second.body.findings[0].supersedesId).toBe(first.body.findings[0].id);
  });

  test('that is measured again and still past goes over into the newer finding, with what was decided', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [first] = await obligationsOf(jobId);
    await decide([first?.id ?? ''], { kind: 'replace' });
    const again = await key(jobId, 'piston', pistonOf('87.911', { repeat: 2 }));
    const after = await obligationsOf(jobId);
    expect(after.map(({ state }) => state)).toEqual(['discharged', 'decided']);
    expect(after[1]).toMatchObject({ id: again.body.obligations.opened[0], decided: { kind: 'replace' } });
  });

  test('reopens when the reading that proved it is struck and the rest is bad again', async () => {
    const { jobId } = await newJob();
    const bad = await key(jobId, 'piston', pistonOf('87.924'));
    expect(bad.body.findings[0].verdict).toBe('undecided');
    const more = await key(jobId, 'piston', [
      ...pistonOf('87.932', { repeat: 2 }),
      ...pistonOf('87.933', { repeat: 3 }),
    ]);
    expect(more.body.findings[0].verdict).toBe('within service limit');
    expect(await states(jobId)).toEqual(['discharged']);
    const [second, third] = more.body.readings;
    await strike(third.id);
    const struck = await strike(second.id);
    expect(struck.body.findings.at(-1).verdict).toBe('undecided');
    const [obligation, ...others] = await obligationsOf(jobId);
    expect(others).toEqual([]);
    expect(obligation).toMatchObject({
      state: 'to decide',
      decidedAt: null,
      acts: [{ act: 'discharged' }, { act: 'reopened' }],
    });
  });

  test('reopens when the proof is struck and nothing can take its place', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    const [bore] = await obligationsOf(jobId);
    await decide([bore?.id ?? ''], { kind: 'hone' });
    const proof = await key(jobId, 'bore', boreOf(good), 'after work');
    expect(await states(jobId)).toEqual(['discharged']);
    const struck = await strike(proof.body.readings[0].id);
    expect(struck.body.findings).toEqual([]);
    expect(struck.body.obligations.reopened).toEqual([bore?.id]);
    expect(await states(jobId)).toEqual(['to decide']);
    const { body } = await technician.get(`/api/jobs/${jobId}/findings`);
    expect(body.items.filter(({ round }: { round: string }) => round === 'after work')).toEqual(
      expect.arrayContaining([expect.objectContaining({ dimension: 'bore', withdrawn: true })]),
    );
    expect((await strike(proof.body.readings[0].id)).status).toBe(409);
  });

  test('of the bore as received is proven after work only if work was decided on', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    await key(jobId, 'bore', boreOf(good), 'after work');
    expect(await states(jobId)).toEqual(['to decide']);
  });
});

describe('boring to a size that is too small for what was measured', () => {
  const gone = ['88.272', '88.268', '88.265', '88.261', '88.260', '88.259'];
  const boreDecision = (sizeClass: string, reason?: string) => ({
    kind: 'bore',
    sizeClass,
    ...(reason === undefined ? {} : { reason }),
  });
  const eventOf = async (jobId: string) => {
    const [event] = await shop.sql`
      select data from event where job_id = ${jobId} and kind = 'obligation.decided' order by recorded_at desc limit 1`;
    return event?.data;
  };

  test('is refused, with the figures and the smallest size that will do', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    const [bore] = await obligationsOf(jobId);
    const refused = await decide([bore?.id ?? ''], boreDecision('standard', 'the owner has the piston'));
    expect(refused.status).toBe(422);
    expect(refused.body.detail).toMatch(
      /^standard is too small: its bore is 88\.0\d+ mm at most, and this one is cleaned up at 88\.06\d mm\. \+0\.25 is the smallest that will do\. Only a lead/,
    );
    expect(refused.body.errors).toEqual([{ pointer: '/sizeClass', detail: 'is too small for what was measured' }]);
    expect(await states(jobId)).toEqual(['to decide']);
    const taken = await decide([bore?.id ?? ''], boreDecision('+0.25'));
    expect(taken.status).toBe(200);
    expect(await eventOf(jobId)).not.toHaveProperty('tooSmall');
  });

  test('is decided by the lead alone, with a reason, which the act keeps with what speaks against it', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(gone));
    const [bore] = await obligationsOf(jobId);
    const ids = [bore?.id ?? ''];
    const none = await decide(ids, boreDecision('+0.25'));
    expect(none.body.detail).toContain('No size on the sheet will do: the bore is sleeved or renewed.');
    const unsaid = await decide(ids, boreDecision('+0.25', '  '), lead);
    expect(unsaid.status).toBe(422);
    expect(unsaid.body.errors).toEqual([{ pointer: '/reason', detail: 'is needed for a size that is too small' }]);
    const decided = await decide(ids, boreDecision('+0.25', 'the widest place is below the ring travel'), lead);
    expect(decided.status).toBe(200);
    expect(decided.body.obligations[0]).toMatchObject({ decided: { kind: 'bore', sizeClass: '+0.25' } });
    expect(await eventOf(jobId)).toMatchObject({
      reason: 'the widest place is below the ring travel',
      tooSmall: expect.stringContaining('+0.25 is too small'),
    });
  });
});

describe('boring to the first oversize', () => {
  test('starts a new part with new limits; measuring as built proves it', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    const [bore] = await obligationsOf(jobId);
    const unlisted = await decide([bore?.id ?? ''], { kind: 'bore', sizeClass: '+1.00' });
    expect(unlisted.status).toBe(422);
    expect(unlisted.body.detail).toContain('+0.25');
    expect((await decide([bore?.id ?? ''], { kind: 'bore' })).status).toBe(422);
    const decided = await decide([bore?.id ?? ''], { kind: 'bore', sizeClass: '+0.25' });
    expect(decided.body.obligations[0]).toMatchObject({
      state: 'decided',
      decided: { kind: 'bore', sizeClass: '+0.25' },
    });
    const fitted = await technician.post(`/api/jobs/${jobId}/fitted-parts`, {
      placeCode: 'cylinder',
      name: 'Cylinder, bored',
      sizeClass: '+0.25',
    });
    expect(fitted.status).toBe(201);
    expect(fitted.body).toMatchObject({ sizeClass: '+0.25', fittedHours: '243.5' });
    const built = await key(jobId, 'bore', boreOf(bored), 'as built');
    const finding = built.body.findings.find(({ dimension }: { dimension: string }) => dimension === 'bore');
    expect(finding).toMatchObject({
      verdict: 'within standard',
      limits: { sizeClass: '+0.25' },
      fittedPartId: fitted.body.id,
      partHours: '0.0',
    });
    expect(built.body.obligations.discharged).toEqual([bore?.id]);
    const periods = await shop.sql<{ removed: boolean }[]>`
      select removed_at is not null as removed from fitted_part f join job j on j.engine_id = f.engine_id
      where j.id = ${jobId} and f.place_code = 'cylinder' order by f.fitted_at`;
    expect(periods.map(({ removed }) => removed)).toEqual([true, false]);
  });

  test('a plated bore is never bored or honed', async () => {
    const sheet = await insertSpecSheet(shop.sql, shop.people.lead, {
      code: 'P355',
      name: 'Halden plated',
      platedCylinder: true,
    });
    const { jobId } = await takeIn({ ...shop, sheet }, { serial: 'P-1' });
    await key(jobId, 'bore', boreOf(worn));
    const [bore] = await obligationsOf(jobId);
    expect(bore?.words).toContain('Replate or renew it');
    for (const kind of ['bore', 'hone']) {
      const refused = await decide([bore?.id ?? ''], { kind, sizeClass: '+0.25' });
      expect(refused.status).toBe(422);
      expect(refused.body.detail).toContain('replated or renewed');
    }
    expect((await decide([bore?.id ?? ''], { kind: 'replate' })).status).toBe(200);
  });

  test('a place that the sheet does not have is refused', async () => {
    const { jobId } = await newJob();
    const answer = await technician.post(`/api/jobs/${jobId}/fitted-parts`, { placeCode: 'gearbox', name: 'Box' });
    expect(answer.status).toBe(422);
    expect(answer.body.detail).toContain('cylinder');
  });
});

describe('deciding', () => {
  test('to use a part past its limit again is the lead’s, with a reason, and settles it at once', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const ids = [piston?.id ?? ''];
    expect((await decide(ids, { kind: 'reuse' }, lead)).status).toBe(422);
    expect((await decide(ids, { kind: 'reuse', reason: 'one more season' })).status).toBe(403);
    const accepted = await decide(ids, { kind: 'reuse', reason: 'one more season, told the owner' }, lead);
    expect(accepted.body.obligations[0]).toMatchObject({ state: 'discharged' });
    expect(accepted.body.obligations[0].acts.at(-1)).toMatchObject({
      act: 'discharged',
      reason: 'one more season, told the owner',
      by: { name: 'Maren Tolk' },
    });
    expect((await decide(ids, { kind: 'replace' }, lead)).status).toBe(409);
  });

  test('to accept what is merely undecided is the technician’s, with a reason', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.924'));
    const [piston] = await obligationsOf(jobId);
    const accepted = await decide([piston?.id ?? ''], { kind: 'reuse', reason: 'the clearance is good' });
    expect(accepted.status).toBe(200);
  });

  test('one decision settles several obligations of one part, but not of two', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(['88.062', '88.020', '88.055', '88.051', '88.050', '88.049']));
    await key(jobId, 'piston', pistonOf('87.910'));
    const all = await obligationsOf(jobId);
    const idOf = (dimension: string) => all.find(({ finding }) => finding?.dimension === dimension)?.id ?? '';
    const two = await decide([idOf('bore'), idOf('piston')], { kind: 'replace' });
    expect(two.status).toBe(422);
    const one = await decide([idOf('bore'), idOf('bore-out-of-round'), idOf('clearance')], { kind: 'replace' });
    expect(one.status).toBe(200);
    expect(
      new Set(one.body.obligations.map(({ decided }: { decided: { dispositionId: string } }) => decided.dispositionId))
        .size,
    ).toBe(1);
  });

  test('puts the parts it names on the job’s demand', async () => {
    const partId = newId();
    await shop.sql`insert into part (id, number, name, place_code) values (${partId}, 'QL-1042', 'Piston, standard', 'piston')`;
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const answer = await decide([piston?.id ?? ''], { kind: 'replace', demands: [{ partId, quantity: 1 }] });
    expect(answer.body.demandLineIds).toHaveLength(1);
    const rows = await shop.sql<{ wanted: number; obligationId: string }[]>`
      select d.wanted, r.obligation_id as "obligationId" from demand_line d join demand_reason r on r.demand_line_id = d.id
      where d.job_id = ${jobId}`;
    expect(rows).toEqual([{ wanted: 1, obligationId: piston?.id }]);
  });

  test('decided otherwise, a line that others want too loses what the first decision asked for, and no more', async () => {
    const { sql } = shop;
    const { id: partId } = await addPart(sql, { name: 'Piston' });
    const lotId = await addLot(shop, { partId, quantity: 3 });
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const id = piston?.id ?? '';
    await demand(shop, jobId, [[partId, 1]]);
    await decide([id], { kind: 'replace', demands: [{ partId, quantity: 2 }] });
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 3 });
    // The same again takes nothing away: it may ask for more.
    expect((await decide([id], { kind: 'replace' })).status).toBe(200);
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 3 });
    const kept = await decide([id], { kind: 'reuse', reason: 'within what the owner accepts' }, lead);
    expect(kept.status, JSON.stringify(kept.body)).toBe(200);
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 1, cancelled: 2 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 3, reserved: 1 });
    const { body } = await technician.get(`/api/jobs/${jobId}/demands`);
    expect(body.lines[0].reasons.map(({ withdrawn }: { withdrawn: boolean }) => withdrawn)).toEqual([false, true]);
    await expectBooksToAgree(sql);
  });

  test('what was cancelled by hand since is not taken off what another asks for', async () => {
    const { id: partId } = await addPart(shop.sql, { name: 'Piston' });
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const id = piston?.id ?? '';
    await decide([id], { kind: 'replace', demands: [{ partId, quantity: 2 }] });
    const lineId = (await demand(shop, jobId, [[partId, 2]])).get(partId);
    await clerk.post(`/api/demand-lines/${lineId}/cancel`, { quantity: 2, words: 'the spare ones' });
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, notAsked: 2, cancelled: 2 });
    await decide([id], { kind: 'reuse', reason: 'within what the owner accepts' }, lead);
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, cancelled: 4 });
  });

  test('what came back and is not needed is not asked for any more, and what is asked for beside it stays', async () => {
    const { id: partId } = await addPart(shop.sql, { name: 'Piston' });
    await addLot(shop, { partId, quantity: 4 });
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const id = piston?.id ?? '';
    await decide([id], { kind: 'replace', demands: [{ partId, quantity: 2 }] });
    const lineId = (await demand(shop, jobId, [[partId, 2]])).get(partId);
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 2 });
    await clerk.post(`/api/demand-lines/${lineId}/return`, { quantity: 2 });
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 2, cancelled: 2 });
    await decide([id], { kind: 'reuse', reason: 'within what the owner accepts' }, lead);
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, cancelled: 4 });
    await expectBooksToAgree(shop.sql);
  });

  describe('that is discharged', () => {
    async function decidedToReplace(round: Round = 'as received') {
      const { id: partId } = await addPart(shop.sql, { name: 'Piston' });
      await addLot(shop, { partId, quantity: 1 });
      const { jobId } = await newJob();
      const bad = await key(jobId, 'piston', pistonOf('87.910'), round);
      const [piston] = await obligationsOf(jobId);
      const id = piston?.id ?? '';
      const { body } = await decide([id], { kind: 'replace', demands: [{ partId, quantity: 2 }] });
      await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
      expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 1, short: 1 });
      const rightNow = async (later: Round = round) => {
        if (later === round) await strike(bad.body.readings[0].id);
        await key(jobId, 'piston', pistonOf('87.960'), later);
        expect(await states(jobId)).toEqual(['discharged']);
      };
      return { jobId, partId, id, lineId: body.demandLineIds[0], rightNow };
    }
    const discharge = (id: string) => lead.post(`/api/obligations/${id}/discharge`, { reason: 'it was held askew' });

    test('since it was measured again and is right, asks for nothing any more', async () => {
      const { jobId, partId, rightNow } = await decidedToReplace();
      await rightNow();
      expect(await standing(shop, jobId, partId)).toEqual({ ...none, cancelled: 2 });
      const [told] = await shop.sql`select data from event where job_id = ${jobId} and kind = 'demand.cancelled'`;
      expect(told?.data).toMatchObject({ quantity: 2, words: expect.stringContaining('measured again') });
      await expectBooksToAgree(shop.sql);
    });

    test('since the work was done, goes on wanting its parts', async () => {
      const later = await decidedToReplace();
      await later.rightNow('after work');
      expect(await standing(shop, later.jobId, later.partId)).toEqual({ ...none, reserved: 1, short: 1 });
      const again = await decidedToReplace('after work');
      await again.rightNow();
      expect(await standing(shop, again.jobId, again.partId)).toEqual({ ...none, reserved: 1, short: 1 });
    });

    test('by a lead, asks for nothing of which nothing was handed out', async () => {
      const needless = await decidedToReplace();
      expect((await discharge(needless.id)).status).toBe(200);
      expect(await standing(shop, needless.jobId, needless.partId)).toEqual({ ...none, cancelled: 2 });
      const fitted = await decidedToReplace();
      await clerk.post(`/api/demand-lines/${fitted.lineId}/issue`, { quantity: 1 });
      await discharge(fitted.id);
      expect(await standing(shop, fitted.jobId, fitted.partId)).toEqual({ ...none, issued: 1, short: 1 });
    });

    test('keeps for its job what was bought for it and has come, and what others ask for', async () => {
      const { jobId, partId, id } = await decidedToReplace();
      const ordered = await clerk.post('/api/purchase-lines', { partId, vendorId: shop.vendorId, quantity: 1, jobId });
      const bin = await addBin(shop.sql);
      await clerk.post('/api/receipts', { partId, binId: bin.id, quantity: 1, purchaseLineId: ordered.body.id });
      await demand(shop, jobId, [[partId, 1]]);
      await discharge(id);
      expect(await standing(shop, jobId, partId)).toEqual({ ...none, reserved: 1, cancelled: 2 });
      await expectBooksToAgree(shop.sql);
    });
  });

  test('what was handed out already stays with the job, and counts for who still wants it', async () => {
    const { id: partId } = await addPart(shop.sql);
    await addLot(shop, { partId, quantity: 3 });
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.910'));
    const [piston] = await obligationsOf(jobId);
    const id = piston?.id ?? '';
    const lines = await demand(shop, jobId, [[partId, 1]]);
    await decide([id], { kind: 'replace', demands: [{ partId, quantity: 2 }] });
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    await clerk.post(`/api/demand-lines/${lines.get(partId)}/issue`, { quantity: 2 });
    await decide([id], { kind: 'reuse', reason: 'within what the owner accepts' }, lead);
    expect(await standing(shop, jobId, partId)).toEqual({ ...none, issued: 2, cancelled: 1 });
    await expectBooksToAgree(shop.sql);
  });

  test('a parts clerk does not decide, and an unknown obligation is not found', async () => {
    expect((await decide([crypto.randomUUID()], { kind: 'replace' }, clerk)).status).toBe(403);
    expect((await decide([crypto.randomUUID()], { kind: 'replace' })).status).toBe(404);
  });
});

describe('a lead', () => {
  test('raises an obligation by name and says when it is done', async () => {
    const { jobId } = await newJob();
    const asked = { words: 'Look at the oil pump before it is closed', inside: true };
    expect((await technician.post(`/api/jobs/${jobId}/obligations`, asked)).status).toBe(403);
    const raised = await lead.post(`/api/jobs/${jobId}/obligations`, asked);
    expect(raised.body).toMatchObject({ ...asked, cause: 'lead', state: 'to decide', finding: null });
    const url = `/api/obligations/${raised.body.id}/discharge`;
    expect((await technician.post(url, { reason: 'looked' })).status).toBe(403);
    expect((await lead.post(url, { reason: ' ' })).status).toBe(400);
    const done = await lead.post(url, { reason: 'looked, it is as new' });
    expect(done.body).toMatchObject({ state: 'discharged', acts: [{ reason: 'looked, it is as new' }] });
    expect((await lead.post(url, { reason: 'again' })).status).toBe(409);
  });
});
