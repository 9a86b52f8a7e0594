import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let jobId: string;
const lash = { low: '0.09', high: '0.10', unit: 'mm' };
const torque = (fastener: number, stage: number, value: { value: string; unit: string }) =>
  shop.as.technician.post(`/api/jobs/${jobId}/torque-pulls`, { set: 'head', fastener, stage, value });
const newtonMetres = (value: string) => ({ value, unit: 'N.m' });
const degrees = (value: string) => ({ value, unit: 'deg' });

beforeAll(async () => {
  shop = await openShop();
  const { familyId } = await insertAssemblySheet(shop.sql, shop.people.lead);
  await insertShims(shop.sql, { thicknesses: [2.2, 2.25, 2.3, 2.35, 2.4], count: 2, movedById: shop.people.clerk });
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: 'H388-0130', familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  jobId = body.id;
});
afterAll(() => shop.close());

describe('shims', () => {
  const question = { valve: 'IN-L', lash, fitted: { value: '2.350', unit: 'mm' } };

  test('a proposal keeps nothing and says what the lash will be', async () => {
    const { status, body } = await shop.as.technician.post(`/api/jobs/${jobId}/shim-proposals`, question);
    expect(status).toBe(200);
    expect(body.chosen).toMatchObject({ thickness: { value: '2.300', unit: 'mm' }, from: 'bin', standing: 'possible' });
    expect(body.chosen.words).toContain('S-14');
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    expect(page.body.valves[0].choice).toBeNull();
  });

  test('the choice is kept and stores are asked for that shim', async () => {
    const { status } = await shop.as.technician.post(`/api/jobs/${jobId}/shims`, question);
    expect(status).toBe(201);
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    expect(page.body.valves[0].choice.thickness.value).toBe('2.300');
    const demands = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(demands.body.lines.map((line: { part: { number: string } }) => line.part.number)).toContain('SH-748-2.30');
  });

  test('a lash upside down, an unknown valve and a wrong unit are refused with the field', async () => {
    const ask = (change: object) => shop.as.technician.post(`/api/jobs/${jobId}/shims`, { ...question, ...change });
    expect(await ask({ lash: { low: '0.10', high: '0.09', unit: 'mm' } })).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/lash/high' }] },
    });
    expect((await ask({ valve: 'EX-R' })).body.detail).toContain('It has IN-L');
    expect(await ask({ fitted: { value: '2.35', unit: 'N.m' } })).toMatchObject({
      status: 422,
      body: { type: 'urn:crosshatch:problem:unit-wrong' },
    });
  });

  test('a valve past shimming points to valve and seat', async () => {
    const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/shim-proposals`, {
      ...question,
      lash: { low: '1.60', high: '1.65', unit: 'mm' },
    });
    expect(body.chosen).toBeNull();
    expect(body.why).toContain('valve and its seat');
  });
});

describe('rings', () => {
  const place = (gaps: readonly (readonly [string, string])[]) =>
    shop.as.technician.post(`/api/jobs/${jobId}/ring-placements`, {
      gaps: gaps.map(([ring, angle]) => ({ ring, angle: degrees(angle), faces: 'crown' })),
    });

  test('a gap over the pin, or too near another, is told ring by ring', async () => {
    const { status, body } = await place([
      ['1', '20'],
      ['2', '90'],
      ['S', '40'],
    ]);
    expect(status).toBe(201);
    const faults = Object.fromEntries(
      body.rings.map(({ ring, faults: each }: { ring: string; faults: string[] }) => [ring, each]),
    );
    expect(faults['2']).toEqual(expect.arrayContaining([expect.stringContaining('the pin')]));
    expect(faults['1']).toEqual([expect.stringContaining('only 20° from S')]);
  });

  test('gaps turned as the sheet says stand well', async () => {
    const { body } = await place([
      ['1', '20'],
      ['2', '200'],
      ['S', '120'],
    ]);
    expect(body.rings.every(({ faults }: { faults: string[] }) => faults.length === 0)).toBe(true);
  });

  test('a mark that faces the wrong way, or that nobody looked at, is told and kept against the engine', async () => {
    const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/ring-placements`, {
      gaps: [
        { ring: '1', angle: degrees('20'), faces: 'skirt' },
        { ring: '2', angle: degrees('200') },
        { ring: 'S', angle: degrees('120') },
      ],
    });
    expect(body.rings.map(({ faults }: { faults: string[] }) => faults)).toEqual([
      ['its mark has to face the crown: turn the ring over'],
      ['nobody looked whether its mark faces the crown'],
      [],
    ]);
    const page = (await shop.as.technician.get(`/api/jobs/${jobId}/assembly`)).body;
    expect(page.ringsPlaced.marksWell).toBe(false);
    expect(page.rings[0]).toMatchObject({ mark: 'R', faces: 'crown', seenFacing: 'skirt' });
    const sheet = (await shop.as.writer.get(`/api/jobs/${jobId}/sheet`)).body;
    expect(sheet.rings.map(({ faces }: { faces: string | null }) => faces)).toEqual(['skirt', null, 'either']);
  });

  test('an angle past the turn and an unknown ring are refused', async () => {
    expect(await place([['1', '400']])).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/gaps/0/angle' }] },
    });
    expect((await place([['9', '10']])).status).toBe(404);
  });
});

describe('rings of a sheet without the maker’s angles', () => {
  test('are aimed by pin and by rule of thumb, clear of the zones, and judged by the least separation', async () => {
    const [familyId, revisionId] = [newId(), newId()];
    await shop.sql`
      insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
      values (${familyId}, 'H200', 'Halden 200', 'two-stroke', 'air', 66400000, 57700000)`;
    await shop.sql`
      insert into spec_revision (id, family_id, number, figures_invented, ring_separation_udeg)
      values (${revisionId}, ${familyId}, 1, true, 60000000)`;
    await shop.sql`
      insert into spec_ring (id, revision_id, code, name, ordinal, pin_udeg, part, faces)
      values (${newId()}, ${revisionId}, '1', 'top ring', 1, 20000000, 'compression', 'crown'),
             (${newId()}, ${revisionId}, '2', 'second ring', 2, null, 'compression', 'crown'),
             (${newId()}, ${revisionId}, 'S', 'spacer', 3, null, 'spacer', 'either')`;
    await shop.sql`
      update spec_revision set published_at = clock_timestamp(), published_by_id = ${shop.people.lead} where id = ${revisionId}`;
    const { body: job } = await shop.as.writer.post('/api/jobs', {
      engine: { serial: 'H388-0131', familyId },
      owner: { name: 'Ingrid Falk', contact: '' },
      hours: '80',
      complaint: 'Smokes',
      bayId: shop.bays.rack,
    });
    const { rings } = (await shop.as.technician.get(`/api/jobs/${job.id}/assembly`)).body;
    expect(rings.map(({ aim }: { aim: unknown }) => aim)).toEqual([
      { angle: degrees('20'), by: 'pin' },
      { angle: degrees('200'), by: 'rule' },
      { angle: degrees('110'), by: 'rule' },
    ]);
    const { body } = await shop.as.technician.post(`/api/jobs/${job.id}/ring-placements`, {
      gaps: [
        { ring: '1', angle: degrees('25'), faces: 'crown' },
        { ring: '2', angle: degrees('200'), faces: 'crown' },
        { ring: 'S', angle: degrees('110') },
      ],
    });
    expect(body.rings[0].faults).toEqual(['a pin holds its gap at 20°: it isn’t turned']);
  });
});

describe('torque', () => {
  test('pulls are taken in order, and a missed one is caught', async () => {
    expect((await torque(1, 1, newtonMetres('20'))).status).toBe(201);
    const missed = await torque(3, 1, newtonMetres('20'));
    expect(missed).toMatchObject({ status: 422 });
    expect(missed.body.detail).toContain('Position 2 comes first');
    expect((await torque(1, 1, newtonMetres('20'))).body.detail).toContain('was pulled in stage 1 already');
  });

  test('a stage is not begun before the last is complete, nor pulled far off, nor in pounds taken for newtons', async () => {
    expect((await torque(1, 2, degrees('90'))).body.detail).toContain('Stage 1 is not complete');
    const off = await torque(2, 1, newtonMetres('27.1'));
    expect(off.status).toBe(422);
    expect(off.body.detail).toContain('lbf·ft');
    expect((await torque(2, 1, { value: '20', unit: 'mm' })).body.type).toContain('unit-wrong');
  });

  test('a struck pull is pulled again, and the set is complete after every stage', async () => {
    const second = await torque(2, 1, newtonMetres('20.2'));
    const [, pull] = second.body.pulls;
    expect(
      (await shop.as.technician.post(`/api/torque-pulls/${pull.id}/strike`, { reason: 'Slipped off' })).status,
    ).toBe(200);
    expect(
      (await shop.as.technician.post(`/api/torque-pulls/${pull.id}/strike`, { reason: 'Slipped off' })).status,
    ).toBe(409);
    for (const fastener of [2, 3, 4]) expect((await torque(fastener, 1, newtonMetres('20'))).status).toBe(201);
    for (const fastener of [1, 2, 3, 4]) await torque(fastener, 2, degrees('90'));
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    expect(page.body.sets[0]).toMatchObject({ code: 'head', complete: true, next: null });
    expect(page.body.sets[0].pulls).toHaveLength(8);
  });

  test('a clerk pulls nothing', async () => {
    const { status } = await shop.as.clerk.post(`/api/jobs/${jobId}/torque-pulls`, {
      set: 'head',
      fastener: 1,
      stage: 1,
      value: newtonMetres('20'),
    });
    expect(status).toBe(403);
  });
});

describe('hand back', () => {
  test('is refused with every reason, then allowed once proved, signed and settled', async () => {
    const refused = await shop.as.writer.post(`/api/jobs/${jobId}/hand-back`, {});
    expect(refused.status).toBe(409);
    expect(refused.body.reasons.map(({ kind }: { kind: string }) => kind)).toEqual(
      expect.arrayContaining(['not-proved', 'demand-open']),
    );

    const proof = await shop.as.technician.post(`/api/jobs/${jobId}/proofs`, {
      proof: 'leak-down',
      passed: true,
      words: '6 % at 600 kPa',
    });
    expect(proof.status).toBe(201);
    expect((await shop.as.technician.post(`/api/proofs/${proof.body.id}/sign-off`, {})).status).toBe(422);
    expect((await shop.as.colleague.post(`/api/proofs/${proof.body.id}/sign-off`, {})).status).toBe(200);
    expect((await shop.as.lead.post(`/api/proofs/${proof.body.id}/sign-off`, {})).status).toBe(409);

    const still = await shop.as.technician.get(`/api/jobs/${jobId}/hand-back`);
    expect(still.body.reasons.map(({ kind }: { kind: string }) => kind)).toEqual(['demand-open']);
    expect((await shop.as.writer.post(`/api/jobs/${jobId}/hand-back`, { override: 'goes as it is' })).status).toBe(403);
    const done = await shop.as.lead.post(`/api/jobs/${jobId}/hand-back`, {
      override: 'Owner takes the shim along',
      note: 'Run in gently',
    });
    expect(done.status).toBe(200);

    const again = await shop.as.lead.post(`/api/jobs/${jobId}/hand-back`, {});
    expect(again.status).toBe(409);
    const holder =
      await shop.sql`select owner_id from custody where until_at is null and engine_id = (select engine_id from job where id = ${jobId})`;
    expect(holder[0]?.owner_id).not.toBeNull();
  });

  test('the build sheet says what was done, and what was accepted by whom', async () => {
    const { body } = await shop.as.writer.get(`/api/jobs/${jobId}/sheet`);
    expect(body).toMatchObject({
      engine: { serial: 'H388-0130', family: 'Halden 388' },
      note: 'Run in gently',
      torque: [{ name: 'head bolts', pulls: 8, complete: true, by: ['Nadia Quill'] }],
      shims: [{ valve: 'intake left', thickness: '2.300' }],
      proofs: [{ name: 'Leak-down', passed: true, signedBy: 'Oskar Pell' }],
      overrides: [{ by: 'Maren Tolk', words: 'Owner takes the shim along' }],
    });
    expect(body.rings).toHaveLength(3);
  });
});
