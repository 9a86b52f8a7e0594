import { afterAll, describe, expect, test } from 'vitest';
import type { InstrumentFacts } from '#contracts/instruments.ts';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { sql } = shop;
const { lead, technician, clerk } = shop.as;

describe('an instrument', () => {
  let number = 0;
  const gauge = async (of: { due?: number; retired?: boolean } = {}) => {
    number += 1;
    const id = newId();
    await sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe,
        calibration_due_on, retired_at)
      values (${id}, ${`BG-${number}`}, 'Bore gauge', 'dial bore gauge', 'length', 'mm', 3, 50000000, 160000000, 1000, 3000,
        (clock_timestamp() at time zone 'Europe/Oslo')::date + ${of.due ?? null}::int, ${of.retired ? new Date() : null})`;
    return id;
  };
  const seen = async (id: string): Promise<InstrumentFacts | undefined> =>
    (await technician.get('/api/instruments')).body.items.find((one: InstrumentFacts) => one.id === id);
  const check = { zeroError: { value: '0.0785', unit: 'thou' }, master: 'ring 88.000' };

  test('is in date until its day is past', async () => {
    const states = await Promise.all([
      gauge({ due: 31 }),
      gauge({ due: 30 }),
      gauge({ due: 0 }),
      gauge({ due: -1 }),
      gauge(),
    ]);
    const found = await Promise.all(states.map(async (id) => (await seen(id))?.calibration));
    expect(found).toEqual(['in date', 'due soon', 'due soon', 'overdue', 'no date']);
    const { body } = await technician.get('/api/shop');
    expect(body.instruments.map((one: InstrumentFacts) => one.calibration)).toEqual(found);
  });

  test('shows today’s check, in its own unit whatever was keyed', async () => {
    const id = await gauge();
    expect(await seen(id)).toMatchObject({
      lastCheck: null,
      checkedToday: false,
      mpe: { value: '0.0030', unit: 'mm' },
    });
    const { status, body } = await technician.post(`/api/instruments/${id}/checks`, check);
    expect(status).toBe(201);
    expect(body).toMatchObject({ zeroError: { value: '0.0020', unit: 'mm' }, checkedBy: { name: 'Nadia Quill' } });
    expect(await seen(id)).toMatchObject({ lastCheck: { id: body.id, master: 'ring 88.000' }, checkedToday: true });
    // 0.0785 thou is 1 993.9 nm.
    expect(await sql`select zero_error from instrument_check where id = ${body.id}`).toMatchObject([
      { zero_error: 1994 },
    ]);
  });

  test('checked yesterday is not checked today', async () => {
    const id = await gauge();
    await sql`
      insert into instrument_check (id, instrument_id, zero_error, checked_by_id, checked_at)
      values (${newId()}, ${id}, 1000, ${shop.people.technician}, clock_timestamp() - interval '24 hours')`;
    expect(await seen(id)).toMatchObject({ checkedToday: false, lastCheck: { zeroError: { value: '0.0010' } } });
  });

  test('refuses a zero error in N·m, one beyond its range, and one that is no number', async () => {
    const id = await gauge();
    const zero = (value: string, unit: string) =>
      technician.post(`/api/instruments/${id}/checks`, { zeroError: { value, unit } });
    expect((await zero('0.002', 'N.m')).body).toMatchObject({ type: 'urn:crosshatch:problem:unit-wrong', status: 422 });
    expect((await zero('200', 'mm')).body).toMatchObject({ type: 'urn:crosshatch:problem:implausible' });
    expect((await zero('a hair', 'mm')).status).toBe(400);
    expect((await seen(id))?.lastCheck).toBeNull();
  });

  test('out of use is neither listed nor checked, and a clerk checks none', async () => {
    const id = await gauge({ retired: true });
    expect(await seen(id)).toBeUndefined();
    expect((await technician.post(`/api/instruments/${id}/checks`, check)).status).toBe(409);
    expect((await clerk.post(`/api/instruments/${await gauge()}/checks`, check)).status).toBe(403);
    expect((await technician.post(`/api/instruments/${newId()}/checks`, check)).status).toBe(404);
  });
});

describe('the register', () => {
  const micrometer = (code: string) => ({
    code,
    name: 'Micrometer 75 to 100',
    instrumentKind: 'micrometer',
    kind: 'length',
    unit: 'mm',
    decimals: 3,
    range: { low: { value: '75', unit: 'mm' }, high: { value: '100', unit: 'mm' } },
    resolution: { value: '0.001', unit: 'mm' },
    mpe: { value: '0.003', unit: 'mm' },
  });
  const registered = async (code: string): Promise<InstrumentFacts | undefined> =>
    (await technician.get('/api/instruments')).body.items.find((one: InstrumentFacts) => one.code === code);
  const field = (body: { errors: readonly { pointer: string }[] }) => body.errors.map(({ pointer }) => pointer);

  test('takes a new instrument, and a feeler set with its blades', async () => {
    expect((await lead.post('/api/instruments', micrometer('MIC-9'))).status).toBe(201);
    expect(await registered('MIC-9')).toMatchObject({
      range: { low: { value: '75.000' }, high: { value: '100.000' } },
      mpe: { value: '0.0030', unit: 'mm' },
      repeatabilityStudyId: null,
      calibration: 'no date',
    });
    const blade = (thickness: string) => ({
      thickness: { value: thickness, unit: 'mm' },
      tolerance: { value: '0.004', unit: 'mm' },
    });
    const feelers = {
      ...micrometer('FG-9'),
      range: { low: { value: '0', unit: 'mm' }, high: { value: '1', unit: 'mm' } },
    };
    const set = { ...feelers, blades: [blade('0.05'), blade('0.10')] };
    expect((await lead.post('/api/instruments', set)).status).toBe(201);
    expect((await registered('FG-9'))?.blades).toHaveLength(2);
    const twice = await lead.post('/api/instruments', {
      ...set,
      code: 'FG-8',
      blades: [blade('0.05'), blade('0.050')],
    });
    expect(twice.status).toBe(422);
    expect(field(twice.body)).toEqual(['/blades/1/thickness']);
    expect(await registered('FG-8')).toBeUndefined();
  });

  test('refuses what no instrument can be, and names the field', async () => {
    const refused = async (change: object) => {
      const { status, body } = await lead.post('/api/instruments', { ...micrometer('MIC-8'), ...change });
      expect(status).toBe(422);
      return field(body);
    };
    const of = (value: string, unit = 'mm') => ({ value, unit });
    expect(await refused({ range: { low: of('100'), high: of('75') } })).toEqual(['/range/high']);
    expect(await refused({ resolution: of('0') })).toEqual(['/resolution']);
    expect(await refused({ mpe: of('-0.003') })).toEqual(['/mpe']);
    expect(await refused({ mpe: of('3', 'kPa') })).toEqual(['/mpe']);
    expect(await refused({ unit: 'N.m' })).toEqual(['/unit']);
    expect((await lead.post('/api/instruments', { ...micrometer('MIC-8'), decimals: 7 })).status).toBe(400);
    expect(await registered('MIC-8')).toBeUndefined();
  });

  test('is kept by the lead, and holds one instrument under one code', async () => {
    expect((await technician.post('/api/instruments', micrometer('MIC-7'))).status).toBe(403);
    expect((await lead.post('/api/instruments', micrometer('MIC-7'))).status).toBe(201);
    expect((await lead.post('/api/instruments', micrometer('MIC-7'))).status).toBe(409);
  });

  test('says what the newest certificate says, whichever was written down last', async () => {
    const { body } = await lead.post('/api/instruments', micrometer('MIC-6'));
    const write = (certificate: object) => lead.post(`/api/instruments/${body.id}/calibrations`, certificate);
    const first = await write({
      calibratedOn: '2026-03-01',
      dueOn: '2027-03-01',
      mpe: { value: '0.002', unit: 'mm' },
      certificate: 'C-2',
    });
    expect(first.status).toBe(201);
    expect(first.body).toMatchObject({ mpe: { value: '0.0020', unit: 'mm' }, certificate: 'C-2' });
    expect((await write({ calibratedOn: '2025-03-01', dueOn: '2026-03-01', certificate: 'C-1' })).status).toBe(201);
    expect(await registered('MIC-6')).toMatchObject({
      calibratedOn: '2026-03-01',
      calibrationDueOn: '2027-03-01',
      mpe: { value: '0.0020' },
    });
    expect(field((await write({ calibratedOn: '2026-03-01', dueOn: '2026-03-01' })).body)).toEqual(['/dueOn']);
    expect(field((await write({ calibratedOn: '2999-01-01', dueOn: '2999-02-01' })).body)).toEqual(['/calibratedOn']);
    await expect(sql`delete from instrument_calibration where instrument_id = ${body.id}`).rejects.toThrow(
      /append-only/,
    );
  });

  test('a retired instrument is offered to nobody, and stays in what it measured', async () => {
    const { body } = await lead.post('/api/instruments', micrometer('MIC-5'));
    const retire = (client: typeof lead, reason: string) =>
      client.post(`/api/instruments/${body.id}/retire`, { reason });
    expect((await retire(technician, 'Dropped')).status).toBe(403);
    expect((await retire(lead, ' ')).status).toBe(400);
    expect((await retire(lead, 'Dropped, anvil chipped')).status).toBe(200);
    expect(await registered('MIC-5')).toBeUndefined();
    expect((await retire(lead, 'Again')).status).toBe(409);
  });
});
