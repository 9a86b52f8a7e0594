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

test('a plated bore is never bored: only what each grade of piston would leave of room', async () => {
  const id = await obliged('H388', { dimension: 'bore-taper', low: 20_000 });
  await obliged('H388', { dimension: 'bore', low: 92_010_000 });
  const outlook = await outlookOf(shop.db.sql, id);
  expect(outlook.metalLeft).toBeNull();
  expect(outlook.gaps).toEqual([]);
  expect(outlook.pistons.map(({ remove }) => remove)).toEqual([null, null, null]);
  // 92.010 ± 0.0036 less 91.949 to 91.957: 0.049 to 0.065, within 0.045 to 0.068.
  expect(outlook.pistons.find(({ sizeClass }) => sizeClass === 'A')).toMatchObject({
    clearance: mm('0.049', '0.065'),
    outlook: 'inside',
  });
});

test('what is about no bore has no such outlook, and an obligation that is not there is not found', async () => {
  const id = await obliged('H355', { dimension: 'lash-il', type: 'interval', low: 80_000, high: 90_000 });
  expect(await outlookOf(shop.db.sql, id)).toEqual({ bore: null, metalLeft: null, pistons: [], gaps: [] });
  await expect(outlookOf(shop.db.sql, newId())).rejects.toThrow(/no such obligation/i);
});
