import { afterAll, beforeAll, expect, test } from 'vitest';
import { outlookOf } from '#features/findings/obligations/outlook.ts';
import { newId } from '#platform/act.ts';
import { cloneDemoDatabase, type TestDatabase } from '../support/database.ts';

let shop: TestDatabase;
beforeAll(async () => {
  shop = await cloneDemoDatabase();
}, 240_000);
afterAll(() => shop.drop());

/** A finding of a dimension on the last visit of one engine of a family, and what it obliges to. */
async function obliged(family: string, of: { dimension: string; type?: string; low: number; high?: number }) {
  const { sql } = shop.db;
  const [job] = await sql<{ id: string; engineId: string; revisionId: string; byId: string }[]>`
    select j.id, j.engine_id as "engineId", j.revision_id as "revisionId", (select id from person limit 1) as "byId"
    from job j join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where f.code = ${family} order by j.taken_in_at desc, j.number desc limit 1`;
  if (job === undefined) throw new Error(`no job of ${family}`);
  const findingId = newId();
  await sql`
    insert into finding (id, job_id, engine_id, revision_id, dimension_code, dimension_name, round, kind, unit, decimals, value_type,
      value_low, value_high, u, guard, rule, verdict, p_past_low, p_past_high, inside, limits, budget, warnings, instruments,
      running_minutes, formula_version, judged_by_id)
    values (${findingId}, ${job.id}, ${job.engineId}, ${job.revisionId}, ${of.dimension}, ${of.dimension}, 'as built', 'length', 'mm', 3,
      ${of.type ?? 'point'}, ${of.low}, ${of.high ?? null}, 1800, 3000, 'iso-14253-1-2017', 'past the limit', 1, 1, true,
      '{"standard":{},"service":{}}', '[]', '[]', '[]', 600, 1, ${job.byId})`;
  const obligationId = newId();
  await sql`
    insert into obligation (id, engine_id, job_id, words, inside, finding_id)
    values (${obligationId}, ${job.engineId}, ${job.id}, 'Decide on it', true, ${findingId})`;
  return obligationId;
}

const mm = (low: string, high: string | null) => ({ low, high, unit: 'mm' });

test('a worn bore: each oversize with its stock, the metal to take off and left, and the gap of the same ring', async () => {
  await obliged('T615', { dimension: 'ring-gap-top', type: 'interval', low: 550_000, high: 600_000 });
  const id = await obliged('T615', { dimension: 'bore', low: 98_110_000 });
  const outlook = await outlookOf(shop.db.sql, id);
  expect(outlook.bore).toMatchObject({
    widest: { value: '98.110', unit: 'mm' },
    expandedUncertainty: { value: '0.0036', unit: 'mm' },
  });
  // 98.515, the largest bore listed, less 98.110.
  expect(outlook.metalLeft).toMatchObject({ onDiameter: { value: '0.405' }, perSide: { value: '0.203' } });
  const [quarter, half, standard] = outlook.pistons;
  // Piston 98.190 to 98.210 with a clearance of 0.045 to 0.075: 98.210 + 0.045 to 98.190 + 0.075, less 98.110.
  expect(quarter).toMatchObject({
    sizeClass: '+0.25',
    boreTo: mm('98.255', '98.265'),
    remove: mm('0.145', '0.155'),
    outlook: 'outside',
  });
  expect(half).toMatchObject({ sizeClass: '+0.50', boreTo: mm('98.505', '98.515'), remove: mm('0.395', '0.405') });
  // 98.110 ∓ 0.0036, less 97.960 and 97.940.
  expect(standard).toMatchObject({ sizeClass: 'standard', clearance: mm('0.146', '0.174'), remove: null });
  expect(outlook.pistons.every(({ available }) => available >= 0)).toBe(true);
  expect(standard?.words).toMatch(
    /^Piston standard \(.* in stores\): clearance now 0\.146 to 0\.174 mm, not within standard\. It can’t be bored to it\.$/,
  );
  // π · (98.250 − 98.110) = 0.440 wider.
  const gap = outlook.gaps.find(({ sizeClass }) => sizeClass === '+0.25');
  expect(gap).toMatchObject({ gap: mm('0.99', '1.04'), outlook: 'outside' });
});

test('of a worn bore the smallest size that will do is chosen, each smaller one is said to be too small, with the figures', async () => {
  const worn = await obliged('T615', { dimension: 'bore', low: 98_300_000 });
  const { choice } = await outlookOf(shop.db.sql, worn);
  // 98.300 + 0.0036 is wider than 98.265, up to which a piston of +0.25 may be bored; +0.50 goes to 98.515.
  expect(choice).toMatchObject({ sizeClass: '+0.50', part: { name: 'Piston, +0.50' } });
  expect(choice?.words).toMatch(
    /\+0\.25 is too small: its bore is 98\.265 mm at most, and this one is cleaned up at 98\.304 mm\. \+0\.50 is the smallest that will do: /,
  );
  const little = await outlookOf(shop.db.sql, await obliged('T615', { dimension: 'bore', low: 98_110_000 }));
  expect(little.choice).toMatchObject({ sizeClass: '+0.25', part: { name: 'Piston, +0.25' } });
  expect(little.choice?.words).not.toMatch(/\+0\.25 is too small/);
  const gone = await outlookOf(shop.db.sql, await obliged('T615', { dimension: 'bore', low: 98_600_000 }));
  expect(gone.choice).toMatchObject({ sizeClass: null, part: null });
  expect(gone.choice?.words).toMatch(/\+0\.50 is too small.*No size on the sheet will do/);
});

test('where none of the smallest size that will do lies in stores, it is named as the one to buy, not a larger one', async () => {
  const { sql } = shop.db;
  const [part] = await sql<{ id: string; number: string }[]>`
    select p.id, p.number from part p join family f on f.id = p.family_id
    where f.code = 'T615' and p.place_code = 'piston' and p.size_class = '+0.25'`;
  await sql`insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, reason, moved_by_id)
    select gen_random_uuid(), l.id, 'scrap', l.reserved - l.on_hand, 0, 'rust', (select id from person limit 1)
    from stock_lot l where l.part_id = ${part?.id ?? ''} and l.on_hand > l.reserved`;
  const { choice } = await outlookOf(sql, await obliged('T615', { dimension: 'bore', low: 98_110_000 }));
  expect(choice).toMatchObject({ sizeClass: '+0.25', available: 0, part: { number: part?.number } });
  expect(choice?.words).toContain(`none in stores: it is to be bought, as ${part?.number}`);
});

test('a plated bore is never bored: only what each grade of piston would leave of room', async () => {
  const id = await obliged('H388', { dimension: 'bore-taper', low: 20_000 });
  await obliged('H388', { dimension: 'bore', low: 92_010_000 });
  const outlook = await outlookOf(shop.db.sql, id);
  expect(outlook.metalLeft).toBeNull();
  expect(outlook.gaps).toEqual([]);
  expect(outlook.pistons.map(({ remove }) => remove)).toEqual([null, null, null]);
  expect(outlook.choice).toBeNull();
  // 92.010 ± 0.0036 less 91.949 to 91.957: 0.049 to 0.065, within 0.045 to 0.068.
  expect(outlook.pistons.find(({ sizeClass }) => sizeClass === 'A')).toMatchObject({
    clearance: mm('0.049', '0.065'),
    outlook: 'inside',
  });
});

test('what is about no bore has no such outlook, and an obligation that is not there is not found', async () => {
  const id = await obliged('H355', { dimension: 'lash-il', type: 'interval', low: 80_000, high: 90_000 });
  expect(await outlookOf(shop.db.sql, id)).toEqual({
    bore: null,
    metalLeft: null,
    pistons: [],
    choice: null,
    gaps: [],
    resurfacing: null,
  });
  await expect(outlookOf(shop.db.sql, newId())).rejects.toThrow(/no such obligation/i);
});

test('a head face: ratio, squish and what may come off, from the sheet and from what is measured', async () => {
  await obliged('H355', { dimension: 'head-height', low: 91_930_000 });
  const id = await obliged('H355', { dimension: 'head-face', type: 'interval', low: 48_000, high: 52_000 });
  const { resurfacing } = await outlookOf(shop.db.sql, id, { remove: '0.10' });
  const { bore } = (await outlookOf(shop.db.sql, await obliged('H355', { dimension: 'bore', low: 88_000_000 }))) ?? {};
  expect(bore?.widest.value).toBe('88.000');
  const measured = await outlookOf(shop.db.sql, id, { remove: '0.10' });
  // Swept π/4 · 88² · 58.5 = 355.806 cm³; above the piston 25.4 + π/4 · 88² · (0.6 + 0.1) = 29.658, less 0.608 after.
  const [above, disc] = [25.4 + (Math.PI / 4) * 8.8 ** 2 * 0.07, (Math.PI / 4) * 8.8 ** 2];
  const swept = disc * 5.85;
  expect(measured.resurfacing?.ratio?.before).toBeCloseTo((swept + above) / above, 3);
  expect(measured.resurfacing?.ratio?.after).toBeCloseTo((swept + above - disc * 0.01) / (above - disc * 0.01), 3);
  expect(measured.resurfacing?.ratio?.before).toBeCloseTo(12.997, 2);
  expect(measured.resurfacing).toMatchObject({
    face: 'head',
    leastCut: { value: '0.052', unit: 'mm' },
    squish: { before: { value: '0.700' }, after: mm('0.600', '0.700') },
    // 91.93 − 91.80 and that less 0.10.
    allowance: { height: { value: '91.930' }, least: { value: '91.800' }, left: { value: '0.130' }, enough: true },
    missing: [],
    tooMuch: false,
  });
  expect(measured.resurfacing?.allowance?.leftAfter.value).toBe('0.030');
  expect(resurfacing?.caution).toMatch(/fuel decide/);
});

test('left to itself it takes the least that trues the face; too deep a cut, or nothing left, is said', async () => {
  const id = await obliged('H355', { dimension: 'head-face', type: 'interval', low: 48_000, high: 52_000 });
  const least = (await outlookOf(shop.db.sql, id)).resurfacing;
  expect(least?.remove.value).toBe('0.052');
  const deep = (await outlookOf(shop.db.sql, id, { remove: '0.2' })).resurfacing;
  expect(deep?.allowance).toMatchObject({ enough: false, leftAfter: { value: '-0.070' } });
  const gone = (await outlookOf(shop.db.sql, id, { remove: '5' })).resurfacing;
  expect(gone).toMatchObject({ tooMuch: true, ratio: null, squish: null });
});

test('off the cylinder the deck loses the cut, and a thicker base gasket gives it back', async () => {
  const id = await obliged('H388', { dimension: 'cylinder-face', type: 'interval', low: 58_000, high: 62_000 });
  const cut = (await outlookOf(shop.db.sql, id, { remove: '0.1' })).resurfacing;
  expect(cut).toMatchObject({ face: 'cylinder', squish: { before: { value: '0.700' }, after: mm('0.600', '0.600') } });
  expect(cut?.ratio?.after).toBeGreaterThan(cut?.ratio?.before ?? Number.POSITIVE_INFINITY);
  const back = (await outlookOf(shop.db.sql, id, { remove: '0.1', gasket: '0.1' })).resurfacing;
  expect(back?.squish?.after).toEqual(mm('0.700', '0.700'));
  expect(back?.ratio?.after).toBeCloseTo(back?.ratio?.before ?? 0, 10);
  // The sheet has no least height of a cylinder.
  expect(back?.missing).toEqual(['the least height of the cylinder: not on the sheet (as cylinder-height)']);
});

test('what the sheet does not have is named, and nothing is guessed', async () => {
  const id = await obliged('O125', { dimension: 'head-face', type: 'interval', low: 48_000, high: 52_000 });
  const { resurfacing } = await outlookOf(shop.db.sql, id);
  expect(resurfacing).toMatchObject({ ratio: null, squish: null, allowance: null });
  expect(resurfacing?.missing).toEqual([
    'the chamber’s volume: not on the sheet (as chamber-volume)',
    'the head gasket’s thickness, pressed: not on the sheet (as head-gasket)',
    'the deck, piston below the cylinder’s top: not on the sheet (as deck)',
    'the least height of the head: not on the sheet (as head-height)',
  ]);
  expect(resurfacing?.assumed.join(' ')).toMatch(/Over the whole stroke/);
});
