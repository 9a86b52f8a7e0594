import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { technician } = shop.as;

/** A second revision with everything a sheet can hold beside its dimensions. All figures invented. */
const revisionId = newId();
beforeAll(async () => {
  const { sql, sheet } = shop;
  await sql`
    insert into spec_revision (id, family_id, number, note, figures_invented, ring_separation_udeg)
    values (${revisionId}, ${sheet.familyId}, 2, 'second printing', true, 90000000)`;
  const setId = newId();
  await sql`
    insert into spec_fastener_set (id, revision_id, code, name, thread, property_class, condition, reuse, unit, page)
    values (${setId}, ${revisionId}, 'head', 'Head bolts', 'M10x1.25', '10.9', 'oiled', 'inspect', 'N.m', '7-12')`;
  await sql`insert into spec_fastener (id, set_id, number, x_nm, y_nm) values (${newId()}, ${setId}, 1, -50000000, 50500000)`;
  await sql`insert into spec_fastener_stage (id, set_id, ordinal, torque_unm) values (${newId()}, ${setId}, 1, 22500000)`;
  await sql`insert into spec_fastener_stage (id, set_id, ordinal, angle_udeg) values (${newId()}, ${setId}, 2, 90000000)`;
  await sql`insert into spec_ring (id, revision_id, code, name, ordinal, angle_udeg) values (${newId()}, ${revisionId}, 'top', 'Top ring', 1, 120000000)`;
  await sql`insert into spec_ring_zone (id, revision_id, from_udeg, to_udeg, reason) values (${newId()}, ${revisionId}, 265000000, 285000000, 'over the pin')`;
  await sql`
    insert into spec_valve (id, revision_id, code, name, side, ordinal, dimension_code, wanted_nm, adjuster, shim_diameter_nm, shim_low_nm, shim_high_nm)
    values (${newId()}, ${revisionId}, 'in L', 'Intake left', 'intake', 1, 'lash-in-l', 130000, 'shim under bucket', 7480000, 1200000, 3500000)`;
  await sql`
    insert into spec_proof (id, revision_id, code, name, ordinal, words, caution)
    values (${newId()}, ${revisionId}, 'leak', 'Leak-down', 1, 'At top dead centre, warm', 'Hold the crank: it may kick round')`;
});

describe('a spec sheet', () => {
  test('tells places, dimensions with positions, and limits by size class, in the printed unit', async () => {
    const { status, body } = await technician.get(`/api/spec-revisions/${shop.sheet.revisionId}`);
    expect(status).toBe(200);
    expect(body).toMatchObject({ number: 1, figuresInvented: true, publishedBy: { name: 'Maren Tolk' } });
    expect(body.places[0]).toMatchObject({ code: 'cylinder', layer: 'cylinder', expansionPerKelvin: 0.000023 });
    const [bore] = body.dimensions;
    expect(bore).toMatchObject({
      code: 'bore',
      method: 'size',
      boreRule: 'per-level',
      nominal: { value: '88.000', unit: 'mm' },
      plausibleSpan: { value: '3.000', unit: 'mm' },
    });
    expect(bore.limits).toEqual([
      {
        sizeClass: 'standard',
        standard: { low: { value: '88.000', unit: 'mm' }, high: { value: '88.015', unit: 'mm' } },
        service: { low: null, high: { value: '88.050', unit: 'mm' } },
      },
      expect.objectContaining({ sizeClass: '+0.25' }),
    ]);
    expect(bore.positions).toHaveLength(6);
  });

  test('tells fasteners, rings and zones, valves and proofs', async () => {
    const { body } = await technician.get(`/api/spec-revisions/${revisionId}`);
    expect(body.publishedAt).toBeNull();
    expect(body.fasteners).toEqual([
      expect.objectContaining({
        code: 'head',
        page: '7-12',
        positions: [{ number: 1, x: { value: '-50.0', unit: 'mm' }, y: { value: '50.5', unit: 'mm' } }],
        stages: [
          { ordinal: 1, torque: { value: '22.5', unit: 'N.m' }, angle: null },
          { ordinal: 2, torque: null, angle: { value: '90', unit: 'deg' } },
        ],
      }),
    ]);
    expect(body.ringSeparation).toEqual({ value: '90', unit: 'deg' });
    expect(body.rings[0].angle).toEqual({ value: '120', unit: 'deg' });
    expect(body.ringZones[0]).toMatchObject({ from: { value: '265', unit: 'deg' }, reason: 'over the pin' });
    expect(body.valves[0]).toMatchObject({
      wanted: { value: '0.13', unit: 'mm' },
      shimDiameter: { value: '7.48', unit: 'mm' },
      shimSizes: { low: { value: '1.20', unit: 'mm' }, high: { value: '3.50', unit: 'mm' } },
      screwPitch: null,
    });
    expect(body.proofs[0].caution).toContain('Hold the crank');
  });

  test('that nobody has is not found', async () => {
    expect((await technician.get(`/api/spec-revisions/${newId()}`)).status).toBe(404);
    expect((await technician.get('/api/spec-revisions/second')).status).toBe(400);
  });
});

test('families name the newest published sheet, not a draft', async () => {
  const { body } = await technician.get('/api/families');
  expect(body.items).toEqual([
    {
      id: shop.sheet.familyId,
      code: 'H355',
      name: 'Halden 355',
      cycle: 'four-stroke',
      cooling: 'water',
      bore: { value: '88.0', unit: 'mm' },
      stroke: { value: '58.5', unit: 'mm' },
      revision: { id: shop.sheet.revisionId, number: 1, figuresInvented: true },
    },
  ]);
});
