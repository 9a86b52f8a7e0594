import { afterAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart, demand } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);
type Named = { readonly number: string };
type Line = { readonly part: { readonly id: string }; readonly state: string };

describe('parts', () => {
  test('are found by a piece of number or name, page by page; signs of a pattern are only signs', async () => {
    for (const number of ['SRCH-1', 'SRCH-2', 'SRCH-3']) await addPart(sql, { number, name: `Ring 100% ${number}` });
    const first = await clerk.get('/api/parts?search=srch&limit=2');
    expect(first.body.items.map(({ number }: Named) => number)).toEqual(['SRCH-1', 'SRCH-2']);
    const second = await clerk.get(`/api/parts?search=srch&limit=2&after=${first.body.next}`);
    expect(second.body).toMatchObject({ items: [{ number: 'SRCH-3' }], next: null });
    expect((await clerk.get('/api/parts?search=100%25')).body.items).toHaveLength(3);
    expect((await clerk.get('/api/parts?search=1_0')).body.items).toHaveLength(0);
  });

  test('are found by the place of an engine that they fit', async () => {
    const { familyId } = shop.sheet;
    await addPart(sql, { number: 'FITS-1', familyId, placeCode: 'piston' });
    await addPart(sql, { number: 'FITS-2', placeCode: 'piston' });
    await addPart(sql, { number: 'FITS-3', familyId, placeCode: 'cylinder' });
    const { body } = await clerk.get(`/api/parts?familyId=${familyId}&placeCode=piston`);
    expect(body.items.map(({ number }: Named) => number)).toEqual(['FITS-1', 'FITS-2']);
    expect((await clerk.get('/api/parts?placeCode=pis')).body.items).toEqual([]);
  });

  test('tell what is on hand, reserved and available, by lot; prices only to those who may see money', async () => {
    const part = await addPart(sql, { priceMinor: 4200 });
    const bin = await addBin(sql);
    await addLot(shop, { partId: part.id, quantity: 5, binId: bin.id, valueMinor: 900 });
    const { jobId, number } = await takeIn(shop, { serial: 'READ-1' });
    await demand(shop, jobId, [[part.id, 2]]);
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    const { body } = await clerk.get(`/api/parts/${part.id}`);
    expect(body.part).toMatchObject({
      onHand: 5,
      reserved: 2,
      available: 3,
      price: { minor: '4200', currency: 'EUR' },
    });
    expect(body.part.lots).toMatchObject([{ bin: bin.code, available: 3, value: { minor: '900' } }]);
    expect(body.holders).toMatchObject([{ job: { number, serial: 'READ-1' }, quantity: 2, expiresAt: null }]);
    const bare = await technician.get(`/api/parts/${part.id}`);
    expect(bare.body.part.price).toBeNull();
    expect(bare.body.part.lots[0].value).toBeNull();
    expect(bare.body.movements.items[0].value).toBeNull();
  });

  test('movements come newest first, page by page, none twice and none left out', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5 });
    for (let count = 0; count < 4; count += 1) {
      await clerk.post('/api/stock-movements', { act: 'scrap', lotId, quantity: 1, reason: `bent ${count}` });
    }
    const seen: string[] = [];
    let after: string | null = '';
    while (after !== null) {
      const { body }: { body: { movements: { items: { reason: string; act: string }[]; next: string | null } } } =
        await clerk.get(`/api/parts/${part.id}?limit=2${after === '' ? '' : `&after=${encodeURIComponent(after)}`}`);
      seen.push(...body.movements.items.map(({ act, reason }) => `${act} ${reason}`.trim()));
      after = body.movements.next;
    }
    expect(seen).toEqual(['scrap bent 3', 'scrap bent 2', 'scrap bent 1', 'scrap bent 0', 'receive']);
    expect((await clerk.get(`/api/parts/${part.id}?after=nonsense`)).status).toBe(400);
  });

  test('that are shims are found by their thickness', async () => {
    const shim = await addPart(sql, { shimNm: 2_350_000 });
    await addPart(sql, { shimNm: 2_400_000 });
    const { body } = await clerk.get('/api/parts?shims=true&thickness=2.35');
    expect(body.items).toMatchObject([{ id: shim.id, shim: { value: '2.35', unit: 'mm' } }]);
  });

  test('of a family are its own and those that fit every family', async () => {
    const own = await addPart(sql, { number: 'FAM-1', familyId: shop.sheet.familyId });
    const any = await addPart(sql, { number: 'FAM-2' });
    const { body } = await clerk.get(`/api/parts?search=FAM-&familyId=${shop.sheet.familyId}`);
    expect(body.items.map(({ id }: { id: string }) => id)).toEqual([own.id, any.id]);
    const other = await clerk.get(`/api/parts?search=FAM-&familyId=${newId()}`);
    expect(other.body.items.map(({ id }: { id: string }) => id)).toEqual([any.id]);
  });

  test('an unknown one is not found', async () => {
    expect((await clerk.get(`/api/parts/${newId()}`)).status).toBe(404);
    expect((await clerk.get('/api/parts/7')).status).toBe(400);
  });
});

test('a kit tells how many of each part are available', async () => {
  const [a, b] = [await addPart(sql), await addPart(sql)];
  await addLot(shop, { partId: a.id, quantity: 4 });
  const kitId = await addKit(shop, [
    [a.id, 1],
    [b.id, 2],
  ]);
  const { body } = await clerk.get(`/api/kits?familyId=${shop.sheet.familyId}`);
  const kit = body.items.find(({ id }: { id: string }) => id === kitId);
  expect(kit.lines).toMatchObject([
    { part: { id: a.id }, quantity: 1, available: 4 },
    { part: { id: b.id }, quantity: 2, available: 0 },
  ]);
});

describe('the stores board', () => {
  test('shows each open job’s lines by state, and pick now only when the job lacks nothing', async () => {
    const [there, scarce] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: there.id, quantity: 5 });
    const { jobId } = await takeIn(shop, { serial: 'BOARD-1' });
    await demand(shop, jobId, [
      [there.id, 1],
      [scarce.id, 1],
    ]);
    const onBoard = async () => {
      const { body } = await clerk.get('/api/stores/board');
      const job = body.jobs.find((candidate: { job: { id: string } }) => candidate.job.id === jobId);
      return { body, job, stateOf: (id: string) => job.lines.find(({ part }: Line) => part.id === id)?.state };
    };
    const before = await onBoard();
    expect([before.stateOf(there.id), before.stateOf(scarce.id)]).toEqual(['not asked', 'not asked']);

    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const short = await onBoard();
    expect([short.stateOf(there.id), short.stateOf(scarce.id)]).toEqual(['reserved', 'short']);
    expect(short.job).toMatchObject({ toPick: 0, short: 1, restartsOn: null });

    await clerk.post('/api/purchase-lines', {
      vendorId: shop.vendorId,
      partId: scarce.id,
      quantity: 1,
      promisedOn: '2099-11-26',
      jobId,
    });
    const ordered = await onBoard();
    expect(ordered.job.restartsOn).toBe('2099-11-26');
    const shortage = ordered.body.shortages.find(({ part }: Line) => part.id === scarce.id);
    expect(shortage).toMatchObject({ job: { id: jobId, serial: 'BOARD-1' }, short: 1, expectedOn: '2099-11-26' });
    expect(ordered.body.coming.find(({ part }: Line) => part.id === scarce.id)).toMatchObject({ quantity: 1 });

    await addLot(shop, { partId: scarce.id, quantity: 1 });
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    const ready = await onBoard();
    expect([ready.stateOf(there.id), ready.stateOf(scarce.id)]).toEqual(['pick now', 'pick now']);
    expect(ready.job).toMatchObject({ toPick: 2, short: 0 });

    await sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.lead} where id = ${jobId}`;
    expect((await onBoard()).job).toBeUndefined();
  });

  test('lists what runs low', async () => {
    const low = await addPart(sql, { reorderPoint: 3 });
    const enough = await addPart(sql, { reorderPoint: 3 });
    await addLot(shop, { partId: low.id, quantity: 2 });
    await addLot(shop, { partId: enough.id, quantity: 4 });
    const { body } = await clerk.get('/api/stores/board');
    const parts = body.low.map(({ part }: Line) => part.id);
    expect(parts).toContain(low.id);
    expect(parts).not.toContain(enough.id);
  });
});

describe('a part is found', () => {
  const numbersFor = async (search: string) =>
    (await shop.as.technician.get(`/api/parts?search=${encodeURIComponent(search)}`)).body.items.map(
      ({ number }: { number: string }) => number,
    );

  test('by words in any order, and by the number a vendor has for it, also after its own changed', async () => {
    const part = await addPart(shop.sql, { number: 'FIND-1', name: 'Cam chain guide' });
    await shop.sql`
      insert into vendor (id, name, trade, contact) values (gen_random_uuid(), 'Finders', 'parts', '')`;
    const price = (theirs: string) => shop.sql`
      insert into vendor_price (id, vendor_id, part_id, price_minor, valid_from, their_number, told_by_id)
      select gen_random_uuid(), v.id, ${part.id}, 100, current_date, ${theirs}, ${shop.people.clerk} from vendor v where v.name = 'Finders'`;
    expect(await numbersFor('guide CAM')).toEqual(['FIND-1']);
    expect(await numbersFor('guide piston')).toEqual([]);
    await price('XQ/77-b');
    await price('XQ/78');
    expect(await numbersFor('xq/77')).toEqual(['FIND-1']);
    expect(await numbersFor('XQ/78')).toEqual(['FIND-1']);
    await shop.sql`update part set name = 'Tensioner blade' where id = ${part.id}`;
    expect(await numbersFor('cam guide')).toEqual([]);
    expect(await numbersFor('tensioner xq')).toEqual(['FIND-1']);
  });
});
