import { afterAll, beforeAll, expect, test } from 'vitest';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let familyId: string;
let engineId: string | undefined;

beforeAll(async () => {
  shop = await openShop();
  familyId = (await insertAssemblySheet(shop.sql, shop.people.lead)).familyId;
  await insertShims(shop.sql, { thicknesses: [2.3], count: 2, movedById: shop.people.clerk });
  await insertInstruments(shop.sql, shop.people.lead);
});
afterAll(() => shop.close());

async function visit(hours: string): Promise<{ jobId: string; engineId: string }> {
  await shop.sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.writer} where handed_back_at is null`;
  const { body, status } = await shop.as.writer.post('/api/jobs', {
    engine: engineId === undefined ? { serial: 'H388-0901', familyId } : { id: engineId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours,
    complaint: 'Hard to start cold',
    bayId: shop.bays.rack,
  });
  expect(status, JSON.stringify(body)).toBe(201);
  engineId = body.engineId;
  return { jobId: body.id, engineId: body.engineId };
}

async function felt(jobId: string, round: string, [go, noGo]: readonly [string, string]): Promise<void> {
  const { status, body } = await shop.as.technician.post(`/api/jobs/${jobId}/readings`, {
    round,
    dimension: 'lash-in-l',
    readings: [{ position: '1', repeat: 1, unit: 'mm', instrumentCode: 'FE-1', interval: { go, noGo } }],
  });
  expect(status, JSON.stringify(body)).toBe(201);
}

test('a valve that sinks into its seat shows over the visits, whatever shims were fitted between', async () => {
  const first = await visit('100');
  await felt(first.jobId, 'as received', ['0.10', '0.15']);
  const measured = [{ valve: 'IN-L', thickness: { value: '2.350', unit: 'mm' } }];
  expect((await shop.as.technician.post(`/api/jobs/${first.jobId}/fitted-shims`, { valves: measured })).status).toBe(
    201,
  );

  // 0.05 smaller after 100 h; shimmed back to where it was.
  const second = await visit('200');
  await felt(second.jobId, 'as received', ['0.05', '0.10']);
  const shims = { valves: [{ valve: 'IN-L', fitted: { value: '2.350', unit: 'mm' } }] };
  const taken = await shop.as.technician.post(`/api/jobs/${second.jobId}/head-shims`, shims);
  expect(taken.body.valves[0].chosen.thickness.value).toBe('2.300');
  await felt(second.jobId, 'as built', ['0.10', '0.15']);
  const page = await shop.as.technician.get(`/api/jobs/${second.jobId}/assembly`);
  expect(page.body.valves[0].fitted.thickness.value).toBe('2.300');

  // Nobody measured the shim this time: it is the one that was fitted last.
  const third = await visit('300');
  await felt(third.jobId, 'as received', ['0.05', '0.10']);

  const { body } = await shop.as.technician.get(`/api/engines/${third.engineId}`);
  expect(body.wear).toMatchObject([
    {
      dimension: 'lash-in-l',
      name: 'intake left, lash and shim together',
      // The lash's low end 0.10 over the 2.300 that is in.
      limit: { side: 'lower', value: { value: '2.400', unit: 'mm' } },
      // Middles of the blade steps over the shims: 0.125 + 2.350, 0.125 + 2.300, 0.075 + 2.300.
      points: [
        { hours: '100.0', value: { value: '2.475' } },
        { hours: '200.0', value: { value: '2.425' } },
        { hours: '300.0', value: { value: '2.375' } },
      ],
      line: { perHundredHours: { value: '-0.0500', unit: 'mm' }, hoursLeft: { estimate: '0.0' } },
    },
  ]);
});
