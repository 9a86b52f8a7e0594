import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { insertAssemblySheet } from '../support/assembly-sheet.ts';
import type { Answer } from '../support/client.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let familyId: string;
let assemble: WrittenProcedure;
let prove: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  familyId = (await insertAssemblySheet(shop.sql, shop.people.lead)).familyId;
  const written = (code: string, kind: 'assemble' | 'prove') =>
    insertProcedure(shop.sql, { familyId, code, kind, steps: [{ title: 'Oil the bore' }, { title: 'Cylinder on' }] });
  assemble = await written('assemble-h388', 'assemble');
  prove = await written('prove-h388', 'prove');
});
afterAll(() => shop.close());

let serials = 0;
const gaps = (angles: Readonly<Record<string, string>>) => ({
  gaps: Object.entries(angles).map(([ring, value]) => ({ ring, angle: { value, unit: 'deg' }, faces: 'crown' })),
});

/** In Nadia's hands: one head bolt pulled, the ring gaps placed and not signed, a procedure left in the middle. */
async function inTheMiddle() {
  serials += 1;
  const as = shop.as.technician;
  const { body: job } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: `H388-E${serials}`, familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  const engineId: string = job.engineId;
  await as.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  await as.post(`/api/jobs/${job.id}/openings`);
  const pull = { set: 'head', fastener: 1, stage: 1, value: { value: '20', unit: 'N.m' } };
  const pulled = await as.post(`/api/jobs/${job.id}/torque-pulls`, pull);
  const placed = await as.post(`/api/jobs/${job.id}/ring-placements`, gaps({ 1: '20', 2: '200', S: '120' }));
  const run = await as.post(`/api/jobs/${job.id}/procedure-runs`, { versionId: assemble.versionId });
  const left = await as.post(`/api/procedure-runs/${run.body.id}/interrupt`, { why: 'Lunch', loose: 'nothing' });
  for (const { status, body } of [pulled, placed, run, left])
    expect([status < 300, body.detail]).toEqual([true, undefined]);
  const [{ id: pullId }] = await shop.sql<[{ id: string }]>`select id from torque_pull where job_id = ${job.id}`;
  const [{ id: placementId }] = await shop.sql<
    [{ id: string }]
  >`select id from ring_placement where job_id = ${job.id} order by placed_at desc limit 1`;
  const acts: Readonly<Record<string, () => Promise<Answer>>> = {
    'a pull struck': () => as.post(`/api/torque-pulls/${pullId}/strike`, { reason: 'wrong wrench' }),
    'rings signed': () => shop.as.colleague.post(`/api/ring-placements/${placementId}/sign-off`),
    'rings placed': () => as.post(`/api/jobs/${job.id}/ring-placements`, gaps({ 1: '30', 2: '210', S: '120' })),
    'a procedure started': () => as.post(`/api/jobs/${job.id}/procedure-runs`, { versionId: prove.versionId }),
    'a procedure gone on with': () => as.post(`/api/procedure-runs/${run.body.id}/resume`),
  };
  return { jobId: job.id as string, engineId, runId: run.body.id as string, acts, as };
}

const doneOf = async (acts: Readonly<Record<string, () => Promise<Answer>>>) => {
  for (const [what, ask] of Object.entries(acts)) {
    const { status, body } = await ask();
    expect([what, status < 300, body?.detail]).toEqual([what, true, undefined]);
  }
};

describe('building up', () => {
  test('while the engine is at a vendor no pull is struck, no ring placed or signed, no procedure begun or gone on with', async () => {
    const { acts, as, jobId } = await inTheMiddle();
    const sent = await as.post(`/api/jobs/${jobId}/outside-work`, {
      subject: { engine: true },
      vendorId: shop.vendorId,
      work: 'Shot-peen the case',
      dueOn: '2099-01-31',
    });
    for (const [what, ask] of Object.entries(acts)) {
      const { status, body } = await ask();
      expect([what, status, body.detail]).toEqual([
        what,
        409,
        'The engine is at Saltmere Plating: it comes back first.',
      ]);
    }
    const back = await shop.as.colleague.post(`/api/outside-work/${sent.body.id}/back`, { bayId: shop.bays.rack });
    expect(back.status).toBe(200);
    await doneOf(acts);
  });

  test('nor while it is on offer; once the offer is withdrawn all of it is done', async () => {
    const { acts, as, jobId } = await inTheMiddle();
    const offer = await as.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
    });
    for (const [what, ask] of Object.entries(acts)) {
      const { status, body } = await ask();
      expect([what, status, body.handoverId]).toEqual([what, 409, offer.body.id]);
    }
    await as.post(`/api/handovers/${offer.body.id}/withdraw`);
    await doneOf(acts);
  });

  test('work is left in the middle wherever the engine is', async () => {
    const { acts, as, jobId, runId } = await inTheMiddle();
    expect((await acts['a procedure gone on with']?.())?.status).toBe(200);
    await as.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
    });
    const left = await as.post(`/api/procedure-runs/${runId}/interrupt`, { why: 'Gone home', loose: 'nothing' });
    expect(left.status).toBe(201);
  });
});
